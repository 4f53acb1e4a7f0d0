import { rules } from '../../../analysis/rules/registry.js';
import { languageFindings } from '../../findings/catalogue.js';
import { nearestName } from '../../names/nearest-name.js';
import { CannotRead } from '../analysed.js';
import type { CommandLine } from '../command.js';

/** Codes of all findings, sorted. */
export const codesOfFindings: readonly string[] = [
  ...rules.map(({ code }) => code),
  ...Object.keys(languageFindings),
].sort();

export const explain: CommandLine = {
  name: 'explain',
  form: '[CODE...]',
  help: [
    'the page of a finding: what is wrong, why it matters, formula and source, what to do; without CODE all codes',
  ],
  switches: {},
  takes: 'codes',
  run: async ({ files: codes }, host, console) => {
    if (codes.length === 0) console.out(codesOfFindings.join('\n'));
    for (const code of codes) {
      const page = codesOfFindings.includes(code) ? await host.pageOf(code) : undefined;
      if (page === undefined) throw new CannotRead(unknown(code));
      console.out(page.trimEnd());
    }
    return 0;
  },
};

const unknown = (code: string): string => {
  const nearest = nearestName(code, codesOfFindings);
  return `No finding is called ${code}${nearest ? `; did you mean ${nearest}` : ''}`;
};
