/** Everything that joining and sealing know of the tub, as it leaves. */
import type { Stages } from '../../stages/stages.js';
import {
  reportAssembly,
  reportSpotOrder,
  reportWeldOrder,
  type AssemblyRow,
  type SpotOrderRow,
  type WeldRow,
} from './assembly.js';
import { reportClears, type ClearRow } from '../clear-distances.js';
import { reportFaces, type FaceJointRow } from './faces.js';
import { reportFillTest, type FillTestRow } from '../fill-test.js';
import { reportLeaks, type LeakRow } from '../leaks.js';
import { reportTubMass, type MassRow } from '../mass.js';
import { reportLength } from '../numbers.js';
import { reportSeams, type SeamRow } from './seams.js';
import { reportPlays, type PlayRow } from '../plays.js';
import { reportWaysOut, type WayRow } from '../ways-out.js';

export interface JointReport {
  readonly seams: readonly SeamRow[];
  readonly face_joints: readonly FaceJointRow[];
  readonly clear_distances: readonly ClearRow[];
  readonly plays: readonly PlayRow[];
  readonly ways_out: readonly WayRow[];
  readonly leaks: readonly LeakRow[];
  /** Height of the lowest place that is open as drawn and that standing water reaches; null: it holds to its rim. */
  readonly leak_level_mm: number | null;
  readonly fill_test: FillTestRow | null;
  readonly mass: MassRow;
  readonly assembly: readonly AssemblyRow[];
  readonly spot_order: readonly SpotOrderRow[];
  /** Null: nothing is welded. */
  readonly weld_order: WeldRow | null;
}

export const reportJoints = (stages: Stages): JointReport => {
  const { lowest } = stages.watertight();
  return {
    seams: reportSeams(stages),
    face_joints: reportFaces(stages),
    clear_distances: reportClears(stages),
    plays: reportPlays(stages),
    ways_out: reportWaysOut(stages),
    leaks: reportLeaks(stages),
    leak_level_mm: lowest ? reportLength(lowest.height) : null,
    fill_test: reportFillTest(stages),
    mass: reportTubMass(stages),
    assembly: reportAssembly(stages),
    spot_order: reportSpotOrder(stages),
    weld_order: reportWeldOrder(stages),
  };
};
