#compdef fractions-shop
# Completion of fractions-shop for zsh. To have it in every shell, put this in ~/.zshrc,
# after compinit:
#   eval "$(fractions-shop --completion zsh)"

_fractions_shop() {
    local -a rules units delimiters
    rules=(64ths 32nds 16ths 8ths 100ths 50ths 10ths mm half-mm)
    units=(in thou ft mm cm m)
    delimiters=(tab comma semicolon bar)

    if (( CURRENT == 2 )) && [[ $words[CURRENT] != -* ]]; then
        local -a commands
        commands=(
            'sheet:work out a file of statements, and write it down as text, a page or a print'
            'compare:tell which sizes and parts differ between two sheets'
            'find:find every size in running text, in inches and millimetres'
            'column:add inch, millimetre and nearest-division columns to a CSV file'
        )
        _describe 'command' commands
        _message 'or a statement in quotes'
        return
    fi

    case $words[2] in
        sheet)
            (( CURRENT-- ))
            shift words
            _arguments \
                '--to[what to write]:form:(FORMS_OF_A_SHEET)' \
                '--out[write here instead of standard output]:file:_files' \
                '--replace[write over a file that this program did not write]' \
                '--paper[the paper to print on]:paper:(A4 letter)' \
                '--landscape[the paper lies on its side]' \
                '--what[which rows a CSV has]:rows:(ROWS_OF_A_CSV)' \
                '--part[of svg and dxf and xy: this part alone]:name:' \
                '--watch[write it anew whenever the sheet is saved]' \
                '--help[print this help and end]' \
                '1:sheet:_files'
            ;;
        compare)
            (( CURRENT-- ))
            shift words
            _arguments \
                '--to[what to write]:form:(text html json marked)' \
                '--out[write here instead of standard output]:file:_files' \
                '--replace[write over a file that this program did not write]' \
                '--json[one JSON object instead of sentences]' \
                '--schema[print the JSON Schema of that object]' \
                '--always-done[exit status 0 also when something differs]' \
                '--help[print this help and end]' \
                '1:sheet as it was:_files' \
                '2:sheet as it is now:_files' \
                '*:more sheets, side by side:_files'
            ;;
        find)
            (( CURRENT-- ))
            shift words
            _arguments \
                '--to[what to write]:form:(text csv json marked)' \
                '--units[which figures stand first]:lead:(inch-first mm-first inch-without-feet)' \
                '--out[write here instead of standard output]:file:_files' \
                '--replace[write over a file that this program did not write]' \
                '--help[print this help and end]' \
                '1:text:_files'
            ;;
        column)
            (( CURRENT-- ))
            shift words
            _arguments \
                '--size[the column that holds the sizes]:name of a column: ' \
                '--rule[the rule whose nearest division is added]:rule:($rules)' \
                '--unit[what a number without a unit is in]:unit:($units)' \
                '--units[which figures stand first]:lead:(inch-first mm-first inch-without-feet)' \
                '--decimal[the decimal sign of the sizes]:sign:(point comma)' \
                '--worksheet[which sheet of a workbook is read]:name:' \
                '--doubtful[what becomes of a size with a second meaning]:what:(fault note)' \
                '--places[decimal places]:places: ' \
                '--delimiter[what stands between the cells]:delimiter:($delimiters)' \
                '--out[write here instead of standard output]:file:_files' \
                '--replace[write over a file that this program did not write]' \
                '--help[print this help and end]' \
                '1:CSV file:_files'
            ;;
        *)
            _arguments \
                '--json[one JSON object a line instead of sentences]' \
                '--rule[the working rule to begin with]:rule:($rules)' \
                '--units[which figures stand first]:lead:(inch-first mm-first inch-without-feet)' \
                '--strict[stop at the first fault or failed check]' \
                '--plain[a prompt of plain lines]' \
                '--width[columns to write in]:columns: ' \
                '--completion[print the completion script for a shell]:shell:(bash zsh fish)' \
                '--schema[print the JSON Schema of what --json gives, or of a sheet]::of what:(answer sheet)' \
                '--version[print the version and end]' \
                '--help[print this help and end]' \
                '*:statement in quotes: '
            ;;
    esac
}

if [[ $funcstack[1] == _fractions_shop ]]; then
    _fractions_shop "$@"
else
    compdef _fractions_shop fractions-shop
fi
