import { CannotRead } from '../analysed.js';
import { WrongUse, type CommandLine, type Host, type Words } from '../command.js';
import type { Console, ExitCode } from '../console.js';

export const fmt: CommandLine = {
  name: 'fmt',
  form: 'PATH... [--check]',
  help: [
    'lays files out: spaces, indentation, blank lines; exit 1: with --check some are not, or a text cannot be read',
    'PATH as for check; what comes from standard input goes to standard output',
    '--check  changes nothing and names the files that are not laid out',
  ],
  switches: { check: { type: 'boolean' } },
  takes: 'files',
  run: async (words, host, console) => {
    if (words.files.length === 0) throw new WrongUse('Name at least one file or folder to lay out');
    const codes: ExitCode[] = [];
    for (const each of await host.find(words.files)) {
      if ('file' in each) codes.push(await layOut(each.file, words, host, console));
      else {
        console.error(each.problem);
        codes.push(2);
      }
    }
    return codes.reduce((worst, code) => (code > worst ? code : worst), 0);
  },
};

const layOut = async (file: string, words: Words, host: Host, console: Console): Promise<ExitCode> => {
  try {
    const { before, after } = await host.layOut(file);
    if (after === undefined) {
      console.error(`${file} cannot be read as it stands and is left alone; tubwright check says why`);
      return 1;
    }
    if (file === '-' && !words.has('check')) console.write(after);
    else if (after !== before) {
      console.out(file);
      if (words.has('check')) return 1;
      host.replace(file, after);
    }
    return 0;
  } catch (error) {
    if (!(error instanceof CannotRead)) throw error;
    console.error(error.message);
    return 2;
  }
};
