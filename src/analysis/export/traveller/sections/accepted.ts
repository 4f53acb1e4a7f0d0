import type { Finding } from '../../../model/finding.js';
import type { Block, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { wordsIn } from '../layout/units.js';

/** What was taken on purpose, and what the checks still say. */
export const acceptedSection = (job: Job, findings: readonly Finding[]): Section => ({
  key: 'accepted',
  title: 'Accepted and open',
  starts: 'follows',
  blocks: [
    { kind: 'text', weight: 'bold', text: 'Accepted on purpose' },
    acceptedBlock(job),
    { kind: 'text', weight: 'bold', text: 'Still open' },
    openBlock(job, findings),
  ],
});

const acceptedBlock = ({ tub }: Job): Block =>
  tub.accepts.length === 0
    ? { kind: 'text', text: 'Nothing.' }
    : {
        kind: 'table',
        columns: [
          { head: 'Finding', align: 'left', share: 50 },
          { head: 'On', align: 'left', share: 34 },
          { head: 'Because', align: 'left', share: 92 },
        ],
        rows: tub.accepts.map(({ code, on, most, as, because }) => [
          code,
          `${on ?? 'all of them'}${most ? `, up to ${most.text}` : ''}${as ? `, told as ${as}` : ''}`,
          because,
        ]),
      };

const openBlock = ({ units }: Job, findings: readonly Finding[]): Block => {
  const open = findings.filter(({ severity }) => severity !== 'info');
  if (open.length === 0) return { kind: 'text', text: 'Nothing: every check of the tub passes or is accepted above.' };
  return {
    kind: 'table',
    columns: [
      { head: 'Severity', align: 'left', share: 20 },
      { head: 'What', align: 'left', share: 106 },
      { head: 'Code', align: 'left', share: 50 },
    ],
    rows: open.map(({ severity, message, code }) => [severity, wordsIn(units, message.replace(/`/g, '')), code]),
  };
};
