/** A basin that asks for every page of a traveller. */
import { analyseText } from '../../../support/analyse-text.js';
import type { Analysis } from '../../../../src/language/analyse.js';

export const BASIN = `units mm
tub "Bottle-rinse basin"
let inside = 460
let rim    = 250
sheet skin = galvanized thickness 1.2  radius 1.2
strip floor of skin from (0, 640, rim) heading front across right inside {
    panel back    60   falling 90 deg
    panel shelf  310   falling 6 deg
    panel chute  120   falling 38 deg
    panel sump   110   falling 6 deg
    panel front  to z rim  rising 80 deg
}
side leftCheek  of skin closes floor.left  up to rim
side rightCheek of skin closes floor.right up to rim
point A = (0, 640, rim)      point B = (inside, 640, rim)
point C = B + (0, 90, 8)     point D = A + (0, 90, 8)
panel apron of skin = A B C D
bend apron floor.back  radius 2
seam leftCheek floor  { tabs loose 18 wide 14 deep every 70 inset 0.8 spots 1  sealant 6 }
seam rightCheek floor { sealant 6 }
outlet drain in floor.sump at center(floor.sump) diameter 52 { lip 15  strainer mesh 20 wire 0.4 size 180 by 80 blocked 50 % }
hole in apron from mid(D, A) + (40, 0, 0) to mid(C, B) - (40, 0, 0) count 4  rivetnut M6 sealed
liquid water
inflow 12 L/min on floor.shelf
shop "yard shop" {
    press brake finger { force 25 ton  bed 800  die 8 12 16 25  punch radius 1  nose 30 deg  fingers 25 50 75 100 150  depth 90  opening 180 }
    folding brake leaf { width 1000  capacity 1.6  depth 60  nose 45 deg  angle at most 135 deg }
    cutter plasma { bed 1250 by 1250  kerf 1.5  smallest hole 3  pen offset (42, 0) }
    spot welder { throat 250  opening 160  sheets at most 3 + 3 }
    stock galvanized thickness 1.2 1000 by 2000
}
accept join/spot-out-of-reach because "spotted with the long arms of the neighbour"
`;

/** What paper is to be printed of it; the nest stays as first laid, which is all that most tests look at. */
export const METRIC = { paper: 'A4', units: 'metric', nestTries: 0 } as const;
export const INCH = { paper: 'Letter', units: 'inch', nestTries: 0 } as const;

/** The stages and findings of the basin, or of a changed text. */
export const basin = (
  change: (text: string) => string = (text) => text,
): Pick<Analysis, 'stages' | 'findings'> & { readonly codes: readonly string[] } => {
  const { stages, findings } = analyseText(change(BASIN));
  return {
    stages,
    findings,
    codes: findings.filter(({ severity }) => severity === 'error').map(({ code, message }) => `${code}: ${message}`),
  };
};

/** Three panels that tell what words of the builder become. */
export const channel = (name: string, reason = 'a test'): Analysis =>
  analyseText(`units mm
tub "${name}"
sheet skin = stainless thickness 2  radius 3
strip floor of skin from (0, 200, 60) heading front across right 300 {
    panel back   60 falling 90 deg
    panel bed   100 falling 0 deg
    panel front  60 rising 90 deg
}
liquid water
inflow 1 L/min on floor.bed
accept drain/dead-level on floor.bed because "${reason}"
`);
