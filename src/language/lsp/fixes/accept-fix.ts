import type { Finding } from '../../../analysis/model/finding.js';
import { rules } from '../../../analysis/rules/registry.js';
import type { Analysis } from '../../analyse.js';
import { NameTable } from '../../names/names.js';
import type { Fix } from './fix.js';

const REASON = 'say why';

/** Takes a finding on purpose: an `accept` at the end of the text, its reason left to the builder. Errors are not offered. */
export function* acceptFix(finding: Finding, analysis: Analysis): Iterable<Fix> {
  if (finding.severity === 'error' || !rules.some((rule) => rule.code === finding.code)) return;
  const [name] = finding.about;
  const text = analysis.document.textDocument;
  const all = text.getText();
  const end = text.positionAt(all.length);
  const newLine = all.endsWith('\n') || all.length === 0 ? '' : '\n';
  const statement = `accept ${finding.code}${name === undefined ? '' : ` on ${nameOrLabel(name, analysis)}`} because "`;
  const line = end.line + (newLine ? 1 : 0);
  const start = { line, character: statement.length };
  yield {
    title:
      name === undefined ? `Accept ${finding.code}, with your reason` : `Accept this on \`${name}\`, with your reason`,
    edits: [{ range: { start: end, end }, newText: `${newLine}${statement}${REASON}"\n` }],
    preferred: false,
    command: {
      title: 'Write the reason',
      command: 'tubwright.selectText',
      arguments: [
        analysis.document.uri.toString(),
        { start, end: { line, character: start.character + REASON.length } },
      ],
    },
  };
}

/** `floor.chute`, or two such for a bend or seam, can stand as they are; a sheet, the tub or anything else is a label in quotes. */
const nameOrLabel = (name: string, { document }: Analysis): string => {
  const table = document.localSymbols;
  const isPart = (word: string): boolean => {
    const [first, leg, ...rest] = word.split('.');
    const thing = table instanceof NameTable ? table.get('thing', first)?.node : undefined;
    if (!thing || rest.length > 0 || !(table instanceof NameTable)) return false;
    return leg === undefined || [...table.legs(thing)].some((each) => each.name === leg);
  };
  const words = name.split(' ');
  return words.length <= 2 && words.every(isPart) ? name : `"${name}"`;
};
