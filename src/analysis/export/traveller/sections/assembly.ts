import { ASSEMBLY_COLUMNS, reportAssembly, type AssemblyRow } from '../../../report/joining/assembly.js';
import { directionWords } from '../../../model/wording.js';
import { reportSeams, type SeamRow } from '../../../report/joining/seams.js';
import { BOX, type Section } from '../layout/block.js';
import { stepFigure } from '../figures/folded-figure.js';
import type { Job } from '../job.js';
import type { Units } from '../layout/units.js';
import { toldTable } from '../layout/told-table.js';

/** More parts than these go without pictures: each shows all that stand already. */
const MOST_PICTURES = 24;

/** In which order the parts go together: what is brought, which way, and what is clamped then. Undefined: one part. */
export const assemblySection = (job: Job): Section | undefined => {
  const rows = reportAssembly(job.stages);
  if (rows.length < 2) return undefined;
  const steps = job.stages.assembly();
  const pictured = rows.length <= MOST_PICTURES;
  return {
    key: 'assembly',
    title: 'Putting it together',
    starts: 'sheet',
    blocks: [
      {
        kind: 'text',
        text: 'Bring each part along the arrow; the heavy lines show it before it is in place. Clamp its seams, measure the opening across the corners, then tack, spot or rivet. Numbers of seams are those of the seam plan.',
      },
      toldTable(job.units, ASSEMBLY_COLUMNS, rows, [
        { head: 'Step', align: 'middle', share: 12, cell: (_, i) => String(i + 1) },
        ...(pictured
          ? [
              {
                head: 'What goes where',
                align: 'middle' as const,
                share: 62,
                cell: (_: AssemblyRow, i: number) => ({
                  figure: stepFigure(
                    job.scenery,
                    steps.slice(0, i).map(({ part }) => part),
                    steps[i].part,
                    steps[i].move,
                    [56, 36],
                  ),
                }),
              },
            ]
          : []),
        { key: 'part', share: 26 },
        { head: 'Which way', align: 'left', share: 28, cell: wayText },
        { key: 'joins', share: 22 },
        { head: 'Clamp', align: 'left', share: 32, cell: (_, i) => clampText(job, i) },
        { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
      ]),
    ],
  };
};

const wayText = ({ move, joins, blocked_by }: AssemblyRow): string => {
  if (blocked_by.length > 0) return `no straight way found: ${blocked_by.join(', ')} stands in it`;
  if (move) return directionWords(move);
  return joins.length === 0 ? 'lay it down' : 'from any side';
};

/** Seams that the step closes, with the force that pulls them shut. */
const clampText = ({ stages, units }: Job, step: number): string => {
  const steps = stages.assembly();
  const { partOf } = stages.joints().paths;
  const isPlaced = new Set(steps.slice(0, step + 1).map(({ part }) => part));
  const seams = reportSeams(stages);
  const closed = stages.joints().seams.flatMap(({ runs }, seam) => {
    const joins = runs.some(({ run }) => {
      const parts = run.sides.map(({ face }) => partOf(face));
      return parts.includes(steps[step].part) && parts.every((part) => part !== undefined && isPlaced.has(part));
    });
    return joins ? [`seam ${seam + 1}${forceText(units, seams[seam])}`] : [];
  });
  return closed.length === 0 ? '-' : closed.join('; ');
};

const forceText = (units: Units, { gap }: SeamRow): string => {
  if (!gap || gap.closing_force_N === 0) return '';
  return gap.closing_force_N === null ? ': no clamp closes it' : `: ${units.pullOf(gap.closing_force_N)}`;
};
