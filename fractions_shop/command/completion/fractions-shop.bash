# Completion of fractions-shop for bash. To have it in every shell, put this in ~/.bashrc:
#   eval "$(fractions-shop --completion bash)"

_fractions_shop() {
    local word=${COMP_WORDS[COMP_CWORD]}
    local before=${COMP_WORDS[COMP_CWORD - 1]}
    local command=${COMP_WORDS[1]}
    local rules="64ths 32nds 16ths 8ths 100ths 50ths 10ths mm half-mm"
    local offered=""
    COMPREPLY=()

    case $before in
        --rule) offered=$rules ;;
        --units) offered="inch-first mm-first inch-without-feet" ;;
        --completion) offered="bash zsh fish" ;;
        --schema) offered="answer sheet" ;;
        --unit) offered="in thou ft mm cm m" ;;
        --decimal) offered="point comma" ;;
        --doubtful) offered="fault note" ;;
        --delimiter) offered="tab comma semicolon bar" ;;
        --to)
            offered="FORMS_OF_A_SHEET"
            [[ $command == find ]] && offered="text csv json marked"
            [[ $command == compare ]] && offered="text html json marked"
            ;;
        --paper) offered="A4 letter" ;;
        --what) offered="ROWS_OF_A_CSV" ;;
        --size | --width | --places | --part) return ;;
        --out)
            compopt -o default 2>/dev/null
            return
            ;;
    esac

    if [[ -z $offered ]]; then
        case $command in
            sheet) offered="--to --out --replace --paper --landscape --what --watch --part --help" ;;
            compare) offered="--to --out --replace --json --schema --always-done --help" ;;
            find) offered="--to --units --out --replace --help" ;;
            column) offered="--size --rule --unit --units --decimal --worksheet --doubtful --places --delimiter --out --replace --help" ;;
            *) offered="--json --rule --units --strict --plain --width --completion --schema --version --help" ;;
        esac
        if [[ $COMP_CWORD -eq 1 && $word != -* ]]; then
            offered="sheet compare find column"
        elif [[ $word != -* ]]; then
            # What is no option is a file after a command word, and a statement otherwise.
            case $command in
                sheet | compare | find | column) compopt -o default 2>/dev/null ;;
            esac
            return
        fi
    fi
    local IFS=$' \t\n'
    # shellcheck disable=SC2207
    COMPREPLY=($(compgen -W "$offered" -- "$word"))
}

complete -F _fractions_shop fractions-shop
