# Completion of crownwright for bash. Installed as share/bash-completion/completions/crownwright.

_crownwright_options() {
  local output="--json --quiet --color --help"
  local place="--into --force --profiles"
  local measured="--name --crown-diameter --rise --taken-at --panels --shape --dome --edge-radius --cloth
    --cloth-thickness --wall --vent-diameter --vent-spacing --tolerance --material --before-steam --vents --set
    --save-order"
  case $1 in
    make | draft) echo "$place $output" ;;
    block) echo "$measured --head-girth --hat-size --panel-top --panel-under --collar --floor --socket $place $output" ;;
    pad) echo "$measured --dish-readings --dish-file --gap $place $output" ;;
    check | sizes) echo "$output" ;;
    simulate) echo "--order --setup --profiles $output" ;;
    profiles) echo "--profiles $output" ;;
    page) echo "--port --no-browser --profiles --help" ;;
    schema) echo "--help" ;;
    *) echo "--help --version" ;;
  esac
}

# Names of profiles, from the program itself.
_crownwright_names() {
  crownwright profiles "$1" --json 2>/dev/null | sed -n 's/^      "name": "\(.*\)",$/\1/p'
}

_crownwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "make block pad draft check simulate sizes profiles schema page --help --version" -- "$word")
    return
  fi
  case $before in
    --into | --profiles) mapfile -t COMPREPLY < <(compgen -d -- "$word") ;;
    --save-order | --dish-file | --order) mapfile -t COMPREPLY < <(compgen -f -- "$word") ;;
    --color) mapfile -t COMPREPLY < <(compgen -W "auto always never" -- "$word") ;;
    --taken-at) mapfile -t COMPREPLY < <(compgen -W "outside form" -- "$word") ;;
    --shape) mapfile -t COMPREPLY < <(compgen -W "$(_crownwright_names shapes)" -- "$word") ;;
    --cloth) mapfile -t COMPREPLY < <(compgen -W "$(_crownwright_names cloth)" -- "$word") ;;
    --material) mapfile -t COMPREPLY < <(compgen -W "$(_crownwright_names materials)" -- "$word") ;;
    --wall) mapfile -t COMPREPLY < <(compgen -W "solid" -- "$word") ;;
    *)
      if [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "$(_crownwright_options "$command")" -- "$word")
      elif [[ $command == make || $command == draft || $command == check || $command == simulate ]]; then
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      elif [[ $command == profiles ]]; then
        mapfile -t COMPREPLY < <(compgen -W "shapes cloth materials printers" -- "$word")
      fi
      ;;
  esac
}

complete -o filenames -F _crownwright crownwright
