import { switchesOf, WrongUse, type CommandLine } from '../command.js';
import { codesOfFindings } from './explain.js';

const SHELLS = ['bash', 'zsh', 'fish'] as const;
type Shell = (typeof SHELLS)[number];

/** What makes a shell complete the words of the other commands. */
export const completions = (commands: readonly CommandLine[]): CommandLine => {
  const own: CommandLine = {
    name: 'completions',
    form: 'SHELL',
    help: [
      `what a shell reads to complete these words: ${SHELLS.join(', ')}`,
      'bash: source <(tubwright completions bash)',
      'zsh:  source <(tubwright completions zsh)',
      'fish: tubwright completions fish | source',
    ],
    switches: {},
    takes: 'shells',
    run: async ({ files }, _host, console) => {
      const [shell] = files;
      if (files.length !== 1 || !isShell(shell)) throw new WrongUse(`Name one shell: ${SHELLS.join(', ')}`);
      console.out(SCRIPTS[shell]([...commands, own]));
      return 0;
    },
  };
  return own;
};

const isShell = (word: string): word is Shell => (SHELLS as readonly string[]).includes(word);

const switchWords = (command: CommandLine): readonly string[] =>
  Object.keys(switchesOf(command)).map((name) => `--${name}`);

/** Words that can stand after a command or a switch; undefined where that is a file. */
const wordsAfter = ({ takes }: CommandLine): readonly string[] | undefined =>
  ({ files: undefined, codes: codesOfFindings, shells: SHELLS })[takes];

const bash = (commands: readonly CommandLine[]): string => {
  const cases = commands.map((command) => {
    const words = wordsAfter(command)?.join(' ');
    const others = words === undefined ? '$(compgen -f -- "$word")' : `$(compgen -W "${words}" -- "$word")`;
    return `    ${command.name}) switches="${switchWords(command).join(' ')}"; others=${others} ;;`;
  });
  const choices = commands
    .flatMap((command) => Object.entries(switchesOf(command)))
    .flatMap(([name, { oneOf }]) =>
      oneOf ? [`    --${name}) COMPREPLY=($(compgen -W "${oneOf.join(' ')}" -- "$word")); return ;;`] : [],
    );
  return `_tubwright() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}" switches others
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${commands.map(({ name }) => name).join(' ')} --help --version" -- "$word"))
    return
  fi
  case "$before" in
${[...new Set(choices)].join('\n')}
  esac
  case "\${COMP_WORDS[1]}" in
${cases.join('\n')}
  esac
  case "$word" in
    -*) COMPREPLY=($(compgen -W "$switches" -- "$word")) ;;
    *) COMPREPLY=($others) ;;
  esac
}
complete -o filenames -F _tubwright tubwright`;
};

/** The one of bash, which zsh can run. */
const zsh = (commands: readonly CommandLine[]): string =>
  `autoload -Uz bashcompinit && bashcompinit\n${bash(commands)}`;

const fish = (commands: readonly CommandLine[]): string =>
  commands
    .flatMap((command) => {
      const inside = `-n '__fish_seen_subcommand_from ${command.name}'`;
      const words = wordsAfter(command);
      return [
        `complete -c tubwright -n __fish_use_subcommand -f -a ${command.name} -d '${command.help[0].replaceAll("'", '’')}'`,
        ...Object.entries(switchesOf(command)).map(
          ([name, { type, oneOf }]) =>
            `complete -c tubwright ${inside} -l ${name}${type === 'string' ? ' -r' : ''}${oneOf ? ` -f -a '${oneOf.join(' ')}'` : ''}`,
        ),
        ...(words ? [`complete -c tubwright ${inside} -f -a '${words.join(' ')}'`] : []),
      ];
    })
    .join('\n');

const SCRIPTS: Readonly<Record<Shell, (commands: readonly CommandLine[]) => string>> = { bash, zsh, fish };
