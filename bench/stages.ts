import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import { unfoldPart } from '../src/analysis/fold/unfold.js';
import { findParts } from '../src/analysis/fold/find-parts.js';
import { foldFlat } from '../src/analysis/fold/fold.js';
import { findingsOf } from '../src/analysis/run.js';
import { buildShape } from '../src/analysis/shape/build-shape.js';
import { createStages } from '../src/analysis/stages.js';
import type { Tub } from '../src/analysis/model.js';
import type { TubDocument } from '../src/language/lower/sources.js';
import { lower } from '../src/language/lower/to-model.js';
import { createTubServices } from '../src/language/tub-module.js';
import type { Bench } from './bench.js';
import { tubText } from './tub-text.js';

const { shared, tub: services } = createTubServices(EmptyFileSystem);
let count = 0;

/** A document read and linked, as after a keystroke. */
const linked = async (text: string): Promise<LangiumDocument> => {
  const document = shared.workspace.LangiumDocumentFactory.fromString(text, URI.parse(`memory:/bench${count++}.tub`));
  shared.workspace.LangiumDocuments.addDocument(document);
  await shared.workspace.DocumentBuilder.build([document], { validation: false });
  shared.workspace.LangiumDocuments.deleteDocument(document.uri);
  return document;
};

const loweredTub = async (panels: number): Promise<Tub> => lower([(await linked(tubText(panels))) as TubDocument]).tub;

/** Every stage on its own, with the stages before it done. */
export const stageBenches: readonly Bench[] = [
  {
    name: 'parse',
    prepare: (panels) => {
      const text = tubText(panels);
      return () => services.parser.LangiumParser.parse(text);
    },
  },
  {
    name: 'parse and link',
    prepare: (panels) => {
      const text = tubText(panels);
      return () => linked(text);
    },
  },
  {
    name: 'model',
    prepare: async (panels) => {
      const document = (await linked(tubText(panels))) as TubDocument;
      return () => lower([document]);
    },
  },
  {
    name: 'shape',
    prepare: async (panels) => {
      const tub = await loweredTub(panels);
      return () => buildShape(tub);
    },
  },
  {
    name: 'unfold',
    prepare: async (panels) => {
      const tub = await loweredTub(panels);
      const shape = buildShape(tub);
      return () => findParts(tub, shape).map((part) => unfoldPart(tub, shape, part));
    },
  },
  {
    name: 'fold back',
    prepare: async (panels) => {
      const flats = createStages(await loweredTub(panels)).flats();
      return () => flats.map((flat) => flat && foldFlat(flat));
    },
  },
  {
    name: 'all stages and checks',
    prepare: async (panels) => {
      const tub = await loweredTub(panels);
      return () => findingsOf(createStages(tub));
    },
  },
];
