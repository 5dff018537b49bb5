"""What sort of shop made these sizes: one division throughout, one system, or a mixed shop.

Each size is on some division of the scheme, or off all marks (`STRAY`: no round size was meant;
in lists of three or more also `MISREAD`: the reading is wrong). How a shop's sizes hang together
is not known, so four kinds of shop are weighed by how well each explains all the readings:

- one division: it is chosen once, and sizes stray from it. Half of STRAY is a shop that knows
  no round sizes at all, half a size here and there, so that a size is off all marks at STRAY in
  all, and not twice over.
- one system, of which every size takes some division: shares p of its divisions are Dirichlet,
  of strength `STRENGTH` about the prior, and each size is drawn by p.
- a mixed shop: the same over all divisions of all systems, so that a metric part may stand
  among inch ones.
- two divisions: a shop of one division, some of whose sizes are of another work, bought or added later,
  with one division of its own: one of inches and one of millimetres. Either may be the main one, by the odds on
  inches; the main one has two thirds of the sizes on average (its share is Beta(2, 1)).

For a single reading they say the same, which is the prior itself. For several the
first and last are summed exactly; the Dirichlet ones by collapsed variational Bayes (Y. W. Teh, D. Newman
and M. Welling, "A collapsed variational Bayesian inference algorithm for latent Dirichlet
allocation", NIPS 19, 2006, with the first-order cavity of A. Asuncion et al., UAI 2009), whose
lower bound of the evidence serves as the evidence. It errs on the side of the plainer shop.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import Enum
from math import exp, lgamma, log

from fractions_shop.meant.priors import DECIMALS, FRACTIONS, METRIC, MISREAD, STRAY, Division
from fractions_shop.size.frozen import Record

#: How many sizes' worth of belief stands behind the prior shares of the divisions.
STRENGTH = 2.0
_HALF_STRAY = STRAY / 2
_ROUNDS, _SETTLED = 60, 1e-4
#: Among more readings than this the echo of a single one is too faint to matter.
_MOST_HEARD = 40
#: A kind of shop less likely than this is not worked out in full.
_UNHEARD = 1e-3


class Kind(Enum):
    """A kind of shop."""

    ONE_DIVISION = "one division"
    ONE_SYSTEM = "one system"
    MIXED = "mixed"
    TWO_DIVISIONS = "two divisions"


#: How likely each kind is before measuring. A judgement: lists of old work often hold a bought or a later part. Simulated
#: lists of one system lose little by it, for one division explains them so much better.
BEFORE = {Kind.ONE_DIVISION: 0.5, Kind.ONE_SYSTEM: 0.2, Kind.MIXED: 0.2, Kind.TWO_DIVISIONS: 0.1}


class Shop(Record):
    """What the readings say of their shop.

    `evidence` is the logarithm of how many times likelier the readings are than sizes at
    random. `beliefs[i][k]` is how likely reading i is of a size on division k, `off[i]` on none;
    `divisions` how likely each division is to serve for all, and last none, if one does.
    """

    evidence: float
    beliefs: tuple[tuple[float, ...], ...]
    off: tuple[float, ...]
    divisions: tuple[float, ...]
    better: tuple[float, ...]
    kinds: dict[Kind, float]


class GainRow(list[float]):
    """How many times likelier each division makes one reading than chance. Many ways weigh the same rows."""

    def __init__(self, gains: Iterable[float]) -> None:
        super().__init__(gains)
        self._logs: dict[float, list[float]] = {}
        self._of_two: dict[tuple[float, int, int], tuple[list[float], list[float]]] = {}

    def logs(self, stray: float) -> list[float]:
        """The logarithm of each, where some of the sizes stray from the division."""
        kept = self._logs.get(stray)
        if kept is None:
            kept = self._logs[stray] = [log(stray + (1 - stray) * gain) for gain in self]
        return kept

    def of_two(self, stray: float, k: int, m: int) -> tuple[list[float], list[float]]:
        """The same of two divisions, for each share of the second in `_AT`: as it is, and its logarithm."""
        kept = self._of_two.get((stray, k, m))
        if kept is None:
            of_one, of_other = self[k], self[m]
            gains = [stray + (1 - stray) * ((1 - p) * of_one + p * of_other) for p, _ in _AT]
            kept = self._of_two[stray, k, m] = gains, [log(gain) for gain in gains]
        return kept


Gains = Sequence[Sequence[float]]


def _rows(gains: Gains) -> list[GainRow]:
    return [row if isinstance(row, GainRow) else GainRow(row) for row in gains]


def one_division(gains: Gains, divisions: Sequence[Division]) -> tuple[list[float], list[float]]:
    """Logarithms: of each division's mass and last of none's; and of how much better each explains the readings."""
    stray = _stray(len(gains))
    better = [sum(column) for column in zip(*(row.logs(stray) for row in _rows(gains)), strict=True)]
    masses = [log(d.weight * (1 - _HALF_STRAY)) + gain for d, gain in zip(divisions, better, strict=True)]
    return [*masses, log(_HALF_STRAY)], better


def shop(gains: Gains, divisions: Sequence[Division]) -> Shop:
    """The readings weighed: `gains[i][k]` is how many times likelier division k makes reading i than chance."""
    masses, better = one_division(gains, divisions)
    alone = _log_sum(masses)
    shares = tuple(exp(mass - alone) for mass in masses)
    mixtures: list[_SharedDivisions | _TwoDivisions] = []
    if len(gains) > 1:
        mixtures += _mixtures(gains, divisions)
        if pairs := two_divisions(gains, divisions):
            mixtures.append(pairs)
    before = BEFORE[Kind.ONE_DIVISION] + sum(mixture.before for mixture in mixtures)
    logs = [
        alone + log(BEFORE[Kind.ONE_DIVISION] / before),
        *(mixture.evidence + log(mixture.before / before) for mixture in mixtures),
    ]
    whole = _log_sum(logs)
    weights = [exp(mass - whole) for mass in logs]
    rows = [
        _kept_to(gains, shares),
        *(
            mixture.beliefs() if w > _UNHEARD else None
            for mixture, w in zip(mixtures, weights[1:], strict=True)
        ),
    ]
    parts = [(w, row) for w, row in zip(weights, rows, strict=True) if row is not None]
    heard = sum(w for w, _ in parts)
    beliefs = tuple(
        tuple(sum(w * row[i][k] for w, row in parts) / heard for k in range(len(divisions)))
        for i in range(len(gains))
    )
    kinds = dict.fromkeys(Kind, 0.0)
    for weight, kind in zip(
        weights, [Kind.ONE_DIVISION, *(mixture.kind for mixture in mixtures)], strict=True
    ):
        kinds[kind] += weight
    evidence = whole if len(gains) > 1 else alone
    off = tuple(max(0.0, 1.0 - sum(row)) for row in beliefs)
    return Shop(evidence, beliefs, off, shares, tuple(better), kinds)


def _stray(count: int) -> float:
    """How likely a size is off its shop's division, where the shop has one."""
    stray = _HALF_STRAY / (1 - _HALF_STRAY)
    return stray + (MISREAD if count > 2 else 0.0)


def _kept_to(gains: Gains, shares: Sequence[float]) -> list[list[float]]:
    stray = _stray(len(gains))
    return [
        [
            share * (1 - stray) * gain / (stray + (1 - stray) * gain)
            for share, gain in zip(shares, row, strict=False)
        ]
        for row in gains
    ]


class _SharedDivisions(Record):
    """Divisions shared out by the Dirichlet: `used` are those that it holds, `before` how likely it is at first."""

    kind: Kind
    before: float
    used: list[int]
    prior: list[float]
    likely: list[list[float]]
    shares: list[list[float]]
    divisions: int

    @property
    def evidence(self) -> float:
        return _bound(self.prior, self.likely, self.shares)

    def beliefs(self) -> list[list[float]]:
        """How likely each reading is of each division."""
        rows = []
        for row in _without_echo(self.prior, self.likely, self.shares):
            every = [0.0] * self.divisions
            for k, share in zip(self.used, row, strict=False):
                every[k] = share
            rows.append(every)
        return rows


def _mixtures(gains: Gains, divisions: Sequence[Division]) -> list[_SharedDivisions]:
    systems = dict.fromkeys(d.system for d in divisions)
    systems_alone = []
    for name in systems if len(systems) > 1 else ():
        weight = sum(d.weight for d in divisions if d.system == name)
        base = [d.weight / weight if d.system == name else 0.0 for d in divisions]
        systems_alone.append(dirichlet(gains, base, Kind.ONE_SYSTEM, weight * BEFORE[Kind.ONE_SYSTEM]))
    return [*systems_alone, dirichlet(gains, [d.weight for d in divisions], Kind.MIXED, BEFORE[Kind.MIXED])]


#: Shares of the second division at which a product over the readings is taken, with their weights: Gauss and
#: Legendre's, exact for as many readings as twice their number.
_AT = tuple(
    (0.5 + x / 2, w / 2)
    for a, w in (
        (0.1252334085114689, 0.2491470458134028),
        (0.3678314989981802, 0.2334925365383548),
        (0.5873179542866175, 0.2031674267230659),
        (0.7699026741943047, 0.1600783285433462),
        (0.9041172563704749, 0.1069393259953184),
        (0.9815606342467193, 0.0471753363865118),
    )
    for x in (-a, a)
)
#: Pairs of divisions that fall so far (a logarithm) behind the best are lost.
_BEHIND = 12.0


class _TwoDivisions(Record):
    """Pairs of an inch division and one of millimetres: each its mass, and how likely each reading is of either."""

    evidence: float
    before: float
    rows: list[list[float]]
    kind: Kind = Kind.TWO_DIVISIONS

    def beliefs(self) -> list[list[float]]:
        """How likely each reading is of each division."""
        return self.rows


def two_divisions(gains: Gains, divisions: Sequence[Division]) -> _TwoDivisions | None:
    """Sizes of an inch division and of one in millimetres, by any shares; None where either is lacking."""
    metric = [k for k, d in enumerate(divisions) if d.system == METRIC]
    inch = [k for k, d in enumerate(divisions) if d.system in (FRACTIONS, DECIMALS)]
    of_metric, of_inch = (sum(divisions[k].weight for k in some) for some in (metric, inch))
    if not of_metric or not of_inch:
        return None
    stray = _stray(len(gains))
    given = _rows(gains)
    alone = [row.logs(stray) for row in given]
    main = of_inch / (of_inch + of_metric)
    shares = [(p, w * 2 * (main * (1 - p) + (1 - main) * p)) for p, w in _AT]
    bounds = [
        (
            sum([max(logs[k], logs[m]) for logs in alone])
            + log(divisions[k].weight * divisions[m].weight / of_inch / of_metric),
            k,
            m,
        )
        for k in inch
        for m in metric
    ]
    of_shares = [log(w) for _, w in shares]
    best = -1e300
    pairs = []
    for bound, k, m in sorted(bounds, reverse=True):
        if bound < best - _BEHIND:
            break
        prior = log(divisions[k].weight * divisions[m].weight / of_inch / of_metric)
        masses = of_shares
        for row in given:
            masses = [mass + each for mass, each in zip(masses, row.of_two(stray, k, m)[1], strict=True)]
        whole = prior + _log_sum(masses)
        best = max(best, whole)
        pairs.append((whole, k, m, masses))
    evidence = _log_sum([whole for whole, *_ in pairs])
    rows = [[0.0] * len(divisions) for _ in gains]
    for whole, k, m, masses in pairs:
        top = _log_sum(masses)
        if whole < evidence - _BEHIND:
            continue
        heard = []
        for at, mass in enumerate(masses):
            share = exp(whole - evidence + mass - top) * (1 - stray)
            if share >= 1e-7:
                heard.append((at, share, 1 - _AT[at][0], _AT[at][0]))
        for row, shares_of_row in zip(given, rows, strict=True):
            gain_k, gain_m, (together, _) = row[k], row[m], row.of_two(stray, k, m)
            of_one, of_other = shares_of_row[k], shares_of_row[m]
            for at, share, q, p in heard:
                each = share / together[at]
                of_one += each * q * gain_k
                of_other += each * p * gain_m
            shares_of_row[k], shares_of_row[m] = of_one, of_other
    return _TwoDivisions(evidence, BEFORE[Kind.TWO_DIVISIONS], rows)


def dirichlet(gains: Gains, base: Sequence[float], kind: Kind, before: float) -> _SharedDivisions:
    """A mixture of the divisions by the shares in `base`, and none at STRAY."""
    off = STRAY + (MISREAD if len(gains) > 2 else 0.0)
    used = [k for k, weight in enumerate(base) if weight > 0]
    prior = [STRENGTH * (1 - off) * base[k] for k in used] + [STRENGTH * off]
    likely = [[row[k] for k in used] + [1.0] for row in gains]
    shares = [_normal([a * b for a, b in zip(prior, row, strict=True)]) for row in likely]
    for _ in range(_ROUNDS):
        sums = [sum(column) for column in zip(*shares, strict=True)]
        # All readings at once, so that their order does not matter.
        held = [p + s for p, s in zip(prior, sums, strict=True)]
        fresh = [
            _normal([(h - own) * gain for h, own, gain in zip(held, row, gain_row, strict=True)])
            for row, gain_row in zip(shares, likely, strict=True)
        ]
        moves = any(
            abs(a - b) >= _SETTLED
            for old, new in zip(shares, fresh, strict=True)
            for a, b in zip(old, new, strict=True)
        )
        shares = fresh
        if not moves:
            break
    return _SharedDivisions(kind, before, used, prior, likely, shares, len(base))


def _without_echo(prior: Sequence[float], likely: Gains, shares: Gains) -> Gains:
    """Each reading's shares, from what the others would say had they not heard of it.

    In `shares` every reading has pulled the others its way, and is pulled further by them: most
    by those that are too rough to say anything of their own.
    """
    if len(shares) > _MOST_HEARD:
        return shares
    sums = [sum(column) for column in zip(*shares, strict=True)]
    freed = []
    for own, gain in zip(shares, likely, strict=True):
        heard = list(prior)
        for other, its in zip(shares, likely, strict=True):
            if other is own:
                continue
            masses = [
                (p + max(0.0, s - a - b)) * g
                for p, s, a, b, g in zip(prior, sums, own, other, its, strict=True)
            ]
            total = sum(masses)
            heard = [h + mass / total for h, mass in zip(heard, masses, strict=True)]
        freed.append(_normal([h * g for h, g in zip(heard, gain, strict=True)]))
    return freed


def _bound(prior: Sequence[float], likely: Gains, shares: Gains) -> float:
    """The variational lower bound of the evidence, its expected counts taken exactly."""
    bound = lgamma(STRENGTH) - lgamma(STRENGTH + len(shares))
    for row, gains in zip(shares, likely, strict=True):
        bound += sum(
            share * log(gain / share)
            for share, gain in zip(row, gains, strict=True)
            if share > 1e-300 and gain > 0
        )
    for own, column in zip(prior, zip(*shares, strict=True), strict=True):
        start = lgamma(own)
        bound += sum(p * (lgamma(own + n) - start) for n, p in enumerate(_counts(column)) if p)
    return bound


def _counts(chances: Sequence[float]) -> list[float]:
    """How likely none, one, two ... of independent things happen."""
    likely = [1.0]
    for chance in chances:
        if chance < 1e-9:
            continue
        likely = [
            (likely[n] * (1 - chance) if n < len(likely) else 0.0) + (likely[n - 1] * chance if n else 0.0)
            for n in range(len(likely) + 1)
        ]
    return likely


def _normal(masses: Sequence[float]) -> list[float]:
    total = sum(masses)
    return [mass / total for mass in masses]


def _log_sum(logs: Sequence[float]) -> float:
    top = max(logs)
    return top + log(sum(exp(mass - top) for mass in logs))
