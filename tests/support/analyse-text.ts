import { EmptyFileSystem, URI } from 'langium';
import type { Effort } from '../../src/analysis/making/plan/verdict.js';
import type { Rule } from '../../src/analysis/rules/rule.js';
import { analyseNow, type Analysis } from '../../src/language/analyse.js';
import { setWorkspaceFolders } from '../../src/language/workspace/imports.js';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { rangeInMain } from '../../src/language/diagnostics/range-in-main.js';
import { createTubServices } from '../../src/language/tub-module.js';
import type { Placed } from './expectations.js';
import type { Services } from '../../src/language/services.js';

export interface AnalyseOptions {
  /** Of the file that the text stands in. */
  readonly name?: string;
  /** Other files of the folder, by the path that `use` gives. */
  readonly files?: Readonly<Record<string, string>>;
  /** Only these checks; all unless given. */
  readonly rules?: readonly Rule[];
  readonly effort?: Effort;
}

const FOLDER = 'file:///bench/';

/** One set of services serves all calls of a test file: building the parser costs more than most texts. */
let services: Services | undefined;

export const testServices = (): Services => (services ??= withoutEditor(createTubServices(EmptyFileSystem)));

/** There are no settings to wait for. */
const withoutEditor = (made: Services): Services => {
  const { ConfigurationProvider } = made.shared.workspace;
  ConfigurationProvider.initialize({ capabilities: {}, processId: null, rootUri: null });
  void ConfigurationProvider.initialized({});
  return made;
};

/**
 * All that is known of a text in the tub language: its tub, the stages of its analysis, every finding (of the language
 * and of the checks), and where in the text each stands. Nothing is read from disk, nothing waits.
 */
export const analyseText = (
  text: string,
  { name = 'main.tub', files = {}, ...options }: AnalyseOptions = {},
): Analysis => {
  const { LangiumDocuments } = testServices().shared.workspace;
  setWorkspaceFolders(LangiumDocuments, [URI.parse(FOLDER)]);
  const texts = Object.entries({ [name]: text, ...files });
  const document = openTexts(
    testServices(),
    texts.map(([path, content]) => [URI.parse(FOLDER + path), content] as const),
  );
  return analyseNow(LangiumDocuments, document, options);
};

/** `code` of each finding in the order of the text, for short assertions. */
export const codesOf = (analysis: Analysis): readonly string[] => analysis.findings.map((finding) => finding.code);

/** Each finding with where it is shown in the text. Only for the newest analysis: the next one replaces its documents. */
export const placedFindings = (analysis: Analysis): readonly Placed[] =>
  analysis.findings.map((finding) => ({
    finding,
    range: rangeInMain(testServices().shared.workspace.LangiumDocuments, analysis, finding.at),
  }));
