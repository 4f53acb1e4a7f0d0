/** The traveller of a tub: everything that is made from the text, for the hands that make it. */
import type { Finding } from '../../finding.js';
import { finishNest, nestTub } from '../../nest/nest-tub.js';
import { findingsOf } from '../../run.js';
import type { Stages } from '../../stages.js';
import type { Paper, Section, Traveller } from './block.js';
import { jobOf } from './job.js';
import { acceptedSection } from './sections/accepted.js';
import { bendSection } from './sections/bends.js';
import { coverSection } from './sections/cover.js';
import { fillSection } from './sections/fill-test.js';
import { flatSection } from './sections/flats.js';
import { hardwareSection } from './sections/hardware.js';
import { nestSection } from './sections/nest.js';
import { partsSection } from './sections/parts.js';
import { seamSection } from './sections/seams.js';
import { unitsOf, type UnitSystem } from './units.js';

export interface TravellerOptions {
  readonly paper: Paper;
  readonly units: UnitSystem;
}

export const DEFAULT_OPTIONS: TravellerOptions = { paper: 'A4', units: 'metric' };

/** What a traveller of this tub says; `findings`: what its checks still say. */
export const travellerOf = (
  stages: Stages, options: TravellerOptions = DEFAULT_OPTIONS, findings: readonly Finding[] = findingsOf(stages),
): Traveller => {
  const job = jobOf(stages, unitsOf(options.units), finishNest(nestTub(stages)));
  const sections: readonly (Section | undefined)[] = [
    coverSection(job),
    partsSection(job),
    nestSection(job),
    ...job.flats.map((flat) => flatSection(job, flat)),
    bendSection(job),
    seamSection(job),
    hardwareSection(job),
    fillSection(job),
    acceptedSection(job, findings),
  ];
  return { tub: stages.tub.name, paper: options.paper, sections: sections.filter((section) => section !== undefined) };
};
