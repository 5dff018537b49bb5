"""Many questions answered by several threads: a Session for each thread, since its names are its own."""

from concurrent.futures import ThreadPoolExecutor

from fractions_shop import InputError, Session

QUESTIONS = [f"{total} in / {count}" for total in range(2, 12) for count in range(2, 8)]
QUESTIONS.append("12 in /")  # a fault stays with its own question


def answered(questions: list[str]) -> list[str]:
    """The first line of each answer, in order."""
    bench = Session()
    lines: list[str] = []
    for question in questions:
        try:
            lines.append(bench.ask(question).text().splitlines()[0])
        except InputError as error:
            lines.append(f"cannot be read: {error.message}")
    return lines


batches = [QUESTIONS[start::4] for start in range(4)]
with ThreadPoolExecutor(max_workers=4) as pool:
    at_once = list(pool.map(answered, batches))
one_by_one = [answered(batch) for batch in batches]

print(f"{len(QUESTIONS)} answers, the same one by one: {at_once == one_by_one}")
print(at_once[0][0])
print(at_once[0][-1])
