"""A sheet: a job written down as statements, worked out as a whole.

One line says one thing:

    ## Runner                        a title; every line below it belongs to it
    # Fitted dry, waxed last.        a note, kept for whoever cuts the parts
    pitch = divide 2 in into 5 up    any statement of the language
    check pitch * 5 = 2 1/32 in      a test of the sheet
    part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge

- Names may be used above the line that sets them: a line is worked out when the lines it
  draws on have been. A line that draws on itself in the end is a fault that names the way
  round. A name set twice is a fault at the second; the first one stands.
- `rule` serves the lines below it in the file, down to the next `rule`, in whatever order
  they are worked out. Above the first one the rule is 64ths.
- `ans` is the size of the nearest statement above in the file, checks, rules, parts and
  notes left out. If that statement has no one size, `ans` is a fault: it never reaches
  past it.
- A fault marks its own line. Lines that draw on it wait and say for what; all others
  are answered.
- A part line: `part NAME: HOW MANY [of MATERIAL][, SIZE by SIZE by SIZE][; NOTE]`. How many
  and the sizes may be worked out from names (`part peg: trays * 4 of beech, peg_across`).
- A revision line: `rev LABEL[, DATE]: WHAT CHANGED`, such as `rev B: lip raised 1/32 in`. The newest, by its letter or
  number, stands in the title and on every picture.
- The first title is the title of the sheet, if no statement stands above it. Where statements
  follow it directly it heads them too; where only notes do, they are notes on the whole sheet.
  Without such a title the sheet is called by its file's name.
- A size that `recover` gave although it is not settled stays marked as doubtful, and
  so does all that rests on it, down to the parts.

A sheet reads no file, runs no program, and each line of it is bounded in length and cost.
"""
