import { reportOf, reportText } from '../../../analysis/report/report.js';
import { onlyFile, type CommandLine } from '../command.js';
import { countOf } from '../print/findings-text.js';
import { errorsIn, tubIn } from './tub-in.js';

export const report: CommandLine = {
  name: 'report',
  form: 'FILE [--variant NAME] [--json]',
  help: [
    'what is known of the tub: parts, bends, water, joints, making',
    '--variant  that variant of it alone',
    '--json     as src/analysis/report/report.schema.json has it',
  ],
  switches: { json: { type: 'boolean' }, variant: { type: 'string' } },
  takes: 'files',
  run: async (words, host, console) => {
    const file = onlyFile(words, 'report on');
    const { stages, findings, units } = await tubIn(file, words.valueOf('variant'), host);
    const value = reportOf(stages);
    console.out(words.has('json') ? JSON.stringify(value, undefined, 2) : reportText(value, units));
    const errors = countOf(findings, 'error');
    if (errors > 0)
      console.error(
        `${errorsIn(file, errors)}: the report covers what could be worked out; tubwright check lists them`,
      );
    return 0;
  },
};
