# Completion of fractions-shop for fish. To have it in every shell, put this in
# ~/.config/fish/config.fish:
#   fractions-shop --completion fish | source

set -l rules 64ths 32nds 16ths 8ths 100ths 50ths 10ths mm half-mm
set -l command_words sheet compare find column
set -l none "not __fish_seen_subcommand_from $command_words"
set -l sheet "__fish_seen_subcommand_from sheet"
set -l compare "__fish_seen_subcommand_from compare"
set -l find "__fish_seen_subcommand_from find"
set -l column "__fish_seen_subcommand_from column"

complete -c fractions-shop -f
complete -c fractions-shop -n "__fish_is_first_token" -a sheet -d "work out a file of statements, and write it down as text, a page or a print"
complete -c fractions-shop -n "__fish_is_first_token" -a compare -d "tell which sizes and parts differ between two sheets"
complete -c fractions-shop -n "__fish_is_first_token" -a find -d "find every size in running text, in inches and millimetres"
complete -c fractions-shop -n "__fish_is_first_token" -a column -d "add inch, millimetre and nearest-division columns to a CSV file"

complete -c fractions-shop -n "$none" -l json -d "one JSON object a line instead of sentences"
complete -c fractions-shop -n "$none" -l strict -d "stop at the first fault or failed check"
complete -c fractions-shop -n "$none" -l plain -d "a prompt of plain lines"
complete -c fractions-shop -n "$none" -l width -x -d "columns to write in"
complete -c fractions-shop -n "$none" -l completion -x -a "bash zsh fish" -d "print the completion script for a shell"
complete -c fractions-shop -n "$none" -l schema -a "answer sheet" -d "print the JSON Schema of what --json gives, or of a sheet"
complete -c fractions-shop -n "$none" -l version -d "print the version and end"

complete -c fractions-shop -l help -d "print this help and end"
complete -c fractions-shop -n "not __fish_seen_subcommand_from sheet compare find" -l rule -x -a "$rules" -d "the working rule"
complete -c fractions-shop -n "not __fish_seen_subcommand_from sheet compare" -l units -x -a "inch-first mm-first inch-without-feet" -d "which figures stand first"

complete -c fractions-shop -n "$sheet" -F
complete -c fractions-shop -n "$sheet" -l to -x -a "FORMS_OF_A_SHEET" -d "what to write"
complete -c fractions-shop -n "$sheet" -l out -r -F -d "write here instead of standard output"
complete -c fractions-shop -n "$sheet" -l replace -d "write over a file that this program did not write"
complete -c fractions-shop -n "$sheet" -l paper -x -a "A4 letter" -d "the paper to print on"
complete -c fractions-shop -n "$sheet" -l landscape -d "the paper lies on its side"
complete -c fractions-shop -n "$sheet" -l what -x -a "ROWS_OF_A_CSV" -d "which rows a CSV has"
complete -c fractions-shop -n "$sheet" -l part -x -d "of svg and dxf and xy: this part alone"
complete -c fractions-shop -n "$sheet" -l watch -d "write it anew whenever the sheet is saved"

complete -c fractions-shop -n "$compare" -F
complete -c fractions-shop -n "$compare" -l to -x -a "text html json marked" -d "what to write"
complete -c fractions-shop -n "$compare" -l out -r -F -d "write here instead of standard output"
complete -c fractions-shop -n "$compare" -l replace -d "write over a file that this program did not write"
complete -c fractions-shop -n "$compare" -l schema -d "print the JSON Schema of that object"
complete -c fractions-shop -n "$compare" -l json -d "one JSON object instead of sentences"
complete -c fractions-shop -n "$compare" -l always-done -d "exit status 0 also when something differs"

complete -c fractions-shop -n "$find" -F
complete -c fractions-shop -n "$find" -l to -x -a "text csv json marked" -d "what to write"
complete -c fractions-shop -n "$find" -l out -r -F -d "write here instead of standard output"
complete -c fractions-shop -n "$find" -l replace -d "write over a file that this program did not write"

complete -c fractions-shop -n "$column" -F
complete -c fractions-shop -n "$column" -l size -x -d "the column that holds the sizes"
complete -c fractions-shop -n "$column" -l unit -x -a "in thou ft mm cm m" -d "what a number without a unit is in"
complete -c fractions-shop -n "$column" -l decimal -x -a "point comma" -d "the decimal sign of the sizes"
complete -c fractions-shop -n "$column" -l worksheet -x -d "which sheet of a workbook is read"
complete -c fractions-shop -n "$column" -l doubtful -x -a "fault note" -d "what becomes of a size with a second meaning"
complete -c fractions-shop -n "$column" -l places -x -d "decimal places"
complete -c fractions-shop -n "$column" -l delimiter -x -a "tab comma semicolon bar" -d "what stands between the cells"
complete -c fractions-shop -n "$column" -l out -r -F -d "write here instead of standard output"
complete -c fractions-shop -n "$column" -l replace -d "write over a file that this program did not write"
