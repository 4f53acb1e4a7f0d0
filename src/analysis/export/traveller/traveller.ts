/** The traveller of a tub: everything that is made from the text, for the hands that make it. */
import type { Finding } from '../../model/finding.js';
import { findingsOf } from '../../rules/run.js';
import type { Stages } from '../../stages/stages.js';
import { DEFAULT_OPTIONS, type Progress, type ExportOptions } from '../exporter.js';
import type { Section, Traveller } from './layout/block.js';
import { jobOf, type Job } from './job.js';
import { acceptedSection } from './sections/accepted.js';
import { assemblySection } from './sections/assembly.js';
import { bendSection } from './sections/bends.js';
import { coverSection } from './sections/cover.js';
import { fillSection } from './sections/fill-test.js';
import { flatSection } from './sections/flats.js';
import { hardwareSection } from './sections/hardware.js';
import { madeSection } from './sections/made.js';
import { levelSection } from './sections/levels.js';
import { nestSection } from './sections/nest.js';
import { numberSection } from './sections/numbers.js';
import { partsSection } from './sections/parts.js';
import { recordSection } from './sections/records.js';
import { seamSection } from './sections/seams.js';
import { weekSection } from './sections/week.js';
import { surroundingsSection } from './sections/surroundings.js';
import { workSection } from './sections/work.js';
import { orderSection } from './sections/weld-order.js';
import { unitsOf } from './layout/units.js';

/** What a traveller of this tub says; `findings`: what its checks still say. Yields what it is at. */
export function* makeTraveller(
  stages: Stages,
  options: ExportOptions = DEFAULT_OPTIONS,
  findings: readonly Finding[] = findingsOf(stages, { effort: 'full' }),
): Generator<Progress, Traveller> {
  const job = yield* jobOf(stages, unitsOf(options.units), options.nestTries);
  const makers: readonly ((job: Job) => Section | undefined)[] = [
    coverSection,
    partsSection,
    madeSection,
    nestSection,
    // The bends and the seams of a flat face its drawing.
    ...job.flats.flatMap((flat) => [() => flatSection(job, flat), () => bendSection(job, flat)]),
    assemblySection,
    seamSection,
    orderSection,
    hardwareSection,
    surroundingsSection,
    levelSection,
    fillSection,
    weekSection,
    workSection,
    recordSection,
    () => acceptedSection(job, findings),
    numberSection,
  ];
  const sections: Section[] = [];
  for (const make of makers) {
    const section = make(job);
    if (!section) continue;
    sections.push(section);
    yield { doing: section.title };
  }
  return { title: 'Shop traveller', tub: stages.tub.name, paper: options.paper, sections };
}

/** The same in one go. */
export const travellerOf = (...of: Parameters<typeof makeTraveller>): Traveller => {
  const making = makeTraveller(...of);
  for (;;) {
    const step = making.next();
    if (step.done) return step.value;
  }
};
