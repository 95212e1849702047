import type { Command } from 'commander';
import { CannotRun, EXIT } from './cannot-run';
import { createProgram } from './program';

/** One command as shells complete it. */
interface Completed {
  readonly name: string;
  readonly description: string;
  readonly options: readonly { readonly flags: readonly string[]; readonly takes: boolean; readonly description: string }[];
}

const SHELLS: Readonly<Record<string, (commands: readonly Completed[]) => string>> = { bash, zsh, fish };

/** `passagework completions SHELL`: a script that the shell reads at its start. */
export function runCompletions(shell: string): number {
  const write = Object.hasOwn(SHELLS, shell) ? SHELLS[shell] : undefined;
  if (!write) throw new CannotRun(`${shell} is not one of ${Object.keys(SHELLS).join(', ')}.`);
  console.log(write(createProgram().commands.map(completed)));
  return EXIT.clean;
}

function completed(command: Command): Completed {
  const options = [...command.options, ...command.createHelp().visibleOptions(command)];
  const once = new Map(options.map((option) => [option.flags, option]));
  return {
    name: command.name(),
    description: command.description(),
    options: [...once.values()].map(({ short, long, required, optional, description }) => ({
      flags: [short, long].filter((flag) => flag !== undefined),
      takes: required || optional,
      description,
    })),
  };
}

/** Files everywhere but after a dash; the words of commands come first. */
function bash(commands: readonly Completed[]): string {
  const cases = commands.map(({ name, options }) => `    ${name}) words='${options.flatMap(({ flags }) => flags).join(' ')}' ;;`);
  return `# bash: source <(passagework completions bash)
_passagework() {
  local word=\${COMP_WORDS[COMP_CWORD]} words=''
  case \${COMP_WORDS[1]} in
${cases.join('\n')}
  esac
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '${commands.map(({ name }) => name).join(' ')}' -- "$word"))
  elif [[ $word == -* ]]; then
    COMPREPLY=($(compgen -W "$words" -- "$word"))
  else
    compopt -o filenames 2>/dev/null
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
  fi
}
complete -F _passagework passagework`;
}

function zsh(commands: readonly Completed[]): string {
  const plain = (text: string) => text.replaceAll("'", '’').replaceAll('[', '(').replaceAll(']', ')').replaceAll(':', ' –');
  const names = commands.map(({ name, description }) => `    '${name}:${plain(description)}'`);
  const cases = commands.map(({ name, options }) => {
    const each = options.flatMap(({ flags, takes, description }) =>
      flags.map((flag) => `'${flag}[${plain(description)}]${takes ? ':value:_files' : ''}'`),
    );
    return `    ${name}) _arguments ${each.join(' ')} '*:file:_files' ;;`;
  });
  return `#compdef passagework
# zsh: passagework completions zsh > "\${fpath[1]}/_passagework"
_passagework() {
  local -a commands
  commands=(
${names.join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
${cases.join('\n')}
  esac
}
_passagework "$@"`;
}

function fish(commands: readonly Completed[]): string {
  const plain = (text: string) => text.replaceAll("'", "\\'");
  const lines = commands.flatMap(({ name, description, options }) => [
    `complete -c passagework -n __fish_use_subcommand -f -a ${name} -d '${plain(description)}'`,
    ...options.map(({ flags, takes, description: what }) => {
      const words = flags.map((flag) => (flag.startsWith('--') ? `-l ${flag.slice(2)}` : `-s ${flag.slice(1)}`));
      const seen = `-n '__fish_seen_subcommand_from ${name}'`;
      return `complete -c passagework ${seen} ${words.join(' ')}${takes ? ' -r' : ''} -d '${plain(what)}'`;
    }),
  ]);
  return ['# fish: passagework completions fish > ~/.config/fish/completions/passagework.fish', ...lines].join('\n');
}
