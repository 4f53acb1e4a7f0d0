import { EmptyFileSystem, URI } from 'langium';
import { analyseNow, type Analysis } from '../../src/language/analyse.js';
import { setWorkspaceFolders } from '../../src/language/imports.js';
import type { TubDocument } from '../../src/language/lower/sources.js';
import { createTubServices } from '../../src/language/tub-module.js';

export interface AnalyseOptions {
  /** Other files of the folder, by the path that `use` gives. */
  readonly files?: Readonly<Record<string, string>>;
}

const FOLDER = 'file:///bench/';

/** One set of services serves all calls of a test file: building the parser costs more than most texts. */
let services: ReturnType<typeof createTubServices> | undefined;

/**
 * All that is known of a text in the tub language: its tub, the stages of its analysis, every finding (of the language
 * and of the checks), and where in the text each stands. Synchronous in effect: nothing is read from disk.
 */
export const analyseText = async (text: string, options: AnalyseOptions = {}): Promise<Analysis> => {
  services ??= createTubServices(EmptyFileSystem);
  const { shared } = services;
  const { LangiumDocuments, LangiumDocumentFactory, DocumentBuilder } = shared.workspace;
  setWorkspaceFolders(LangiumDocuments, [URI.parse(FOLDER)]);
  const stale = LangiumDocuments.all.map((document) => document.uri).toArray();
  await DocumentBuilder.update([], stale);
  const texts = { 'main.tub': text, ...options.files };
  const documents = Object.entries(texts).map(([path, content]) => LangiumDocumentFactory.fromString<never>(content, URI.parse(FOLDER + path)));
  for (const document of documents) LangiumDocuments.addDocument(document);
  await DocumentBuilder.build(documents, { validation: false });
  return analyseNow(LangiumDocuments, documents[0] as unknown as TubDocument);
};

/** `code` of each finding in the order of the text, for short assertions. */
export const codesOf = (analysis: Analysis): readonly string[] => analysis.findings.map((finding) => finding.code);
