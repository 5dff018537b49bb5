"""A session and a sheet."""

from fractions_shop import Answer, InputError, Session, Sheet

bench = Session("32nds")
answer: Answer | None = bench.answer("pitch = 2 1/32 in / 5")
asked: Answer = bench.ask("divide pitch * 5 into 5")
try:
    bench.ask("2 1/O in")
except InputError as error:
    print(error.message, error.start, error.end, error.advice)
job = Sheet.from_text("bay = total / 5\ntotal = 2 1/32 in\ncheck bay * 5 = total")
names: list[str] = list(job.sizes)
print(answer and answer.text(), asked.gist(), bench.size("pitch * 2").mm, job.ok, names, job.to_json())
