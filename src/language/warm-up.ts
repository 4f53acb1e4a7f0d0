import { DocumentState, URI } from 'langium';
import { analyse } from './analyse.js';
import { toDiagnostics } from './diagnostics/findings-to-lsp.js';
import type { Services } from './services.js';
import { readApart } from './workspace/open-texts.js';

/** Rounds after which most of what a keystroke runs has been compiled; some two and a half seconds of work. */
const ROUNDS = 150;
/** ms. How long the work goes on before others get their turn, and how long nobody must have typed. */
const SLICE = 4;
const QUIET = 300;

/**
 * The first keystrokes run code that the engine has not compiled yet, at three times its usual cost. Once the first text has
 * been checked and nobody types, a text of our own is analysed again and again until that is over.
 */
export const warmUpWhenIdle = (services: Services): void => {
  const builder = services.shared.workspace.DocumentBuilder;
  let lastBuilt = performance.now();
  builder.onUpdate(() => {
    lastBuilt = performance.now();
  });
  const first = builder.onBuildPhase(DocumentState.Validated, () => {
    first.dispose();
    builder.onBuildPhase(DocumentState.Validated, () => {
      lastBuilt = performance.now();
    });
    void warmUp(services, () => performance.now() - lastBuilt > QUIET);
  });
};

/** Analyses the text over and over, in slices, each only while it is quiet. It is never among the documents of the services. */
export const warmUp = async (services: Services, isQuiet: () => boolean, rounds = ROUNDS): Promise<void> => {
  const { LangiumDocuments } = services.shared.workspace;
  for (let round = 0; round < rounds; round++) {
    const uri = URI.parse('warm-up:/warm-up.tub');
    const run = analyse(LangiumDocuments, readApart(services, uri, warmUpText(round)));
    let step = run.next();
    for (let until = 0; !step.done; step = run.next()) {
      if (performance.now() < until) continue;
      do await pause(isQuiet() ? 0 : QUIET);
      while (!isQuiet());
      until = performance.now() + SLICE;
    }
    toDiagnostics(LangiumDocuments, step.value);
  }
};

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Some basins with something for most stages; one number changes from round to round, as in an edit. */
export const warmUpText = (round: number): string => `units mm
tub "Warm-up"
sheet skin = stainless thickness 1.2 radius 1.6
${[0, 1, 2].map((i) => basinText(`basin${i}`, 300 * i, i === 1 ? 120 + round : 120)).join('')}liquid water
inflow 5 L/min on basin0.shelf
`;

const basinText = (name: string, x: number, shelf: number): string => `
strip ${name} of skin from (${x}, 700, 500) heading front across right 150 {
  panel back 90 falling 88 deg
  panel shelf ${shelf} falling 4 deg
  panel chute 70 falling 40 deg
  panel step 120 falling 5 deg
  panel base 140 falling 3 deg
  panel front to z 500 rising 80 deg
}
side ${name}Left of skin closes ${name}.left up to 500
side ${name}Right of skin closes ${name}.right up to 500
seam ${name}Left ${name} { tabs loose 18 wide 14 deep every 70 weld tig }
seam ${name}Right ${name} { tabs loose 18 wide 14 deep every 70 weld tig }
outlet ${name}Drain in ${name}.base at center(${name}.base) diameter 30 { lip 12 }
`;
