import type { Severity } from '../../../analysis/model/finding.js';
import type { Checked } from './checked.js';

const KINDS: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'notice' };

/** Commands by which a job on a forge marks lines of a change: `::error file=…,line=…::message`. */
export const githubText = ({ files, unread }: Checked): string =>
  [
    ...files.flatMap(({ file, findings }) =>
      findings.map(({ severity, range: { start, end }, code, message }) => {
        const place = `line=${start.line + 1},col=${start.character + 1},endLine=${end.line + 1},endColumn=${end.character + 1}`;
        return `::${KINDS[severity]} file=${property(file)},${place},title=${property(code)}::${data(message)}`;
      }),
    ),
    ...unread.map(({ file, reason }) => `::error file=${property(file)}::${data(reason)}`),
  ].join('\n');

const data = (text: string): string => text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');

const property = (text: string): string => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
