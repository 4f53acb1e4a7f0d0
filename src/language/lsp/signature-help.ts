import type { LangiumDocument } from 'langium';
import type { SignatureHelpProvider } from 'langium/lsp';
import type {
  SignatureHelp,
  SignatureHelpOptions,
  SignatureHelpParams,
  SignatureInformation,
} from 'vscode-languageserver';
import { cursorAt } from './completion/cursor.js';
import { openCall, type OpenCall } from './completion/open-call.js';
import { snippets } from './completion/snippets.js';
import { functionForms } from './functions.js';
import { wordMeaning } from './word-meanings.js';
import { STATEMENT_WORDS } from '../parser/words.js';

/** What a function takes and which of it is being written; elsewhere, when asked, the forms of the statement. */
export class TubSignatureHelp implements SignatureHelpProvider {
  readonly signatureHelpOptions: SignatureHelpOptions = { triggerCharacters: ['(', ','], retriggerCharacters: [','] };

  provideSignatureHelp({ textDocument }: LangiumDocument, params: SignatureHelpParams): SignatureHelp | undefined {
    const cursor = cursorAt(textDocument.getText(), textDocument.offsetAt(params.position));
    if (cursor.kind !== 'words') return undefined;
    const call = openCall(cursor.before);
    if (call) return helpOf(call);
    const isAsked = params.context?.triggerKind !== 2;
    return isAsked ? statementHelp(cursor.before) : undefined;
  }
}

const helpOf = ({ name, given }: OpenCall): SignatureHelp => {
  const { parameters, isRepeated, gives } = functionForms[name];
  const label = `${name}(${parameters.join(', ')}${isRepeated ? ', …' : ''})`;
  return {
    signatures: [
      {
        label,
        documentation: { kind: 'markdown', value: gives },
        parameters: parameters.map((_, i) => ({ label: placeOf(name, parameters, i) })),
      },
    ],
    activeSignature: 0,
    activeParameter: isRepeated ? Math.min(given, parameters.length - 1) : given,
  };
};

/** By its place in the label: two parameters may have one name. */
const placeOf = (name: string, parameters: readonly string[], i: number): [number, number] => {
  const start = name.length + 1 + parameters.slice(0, i).reduce((sum, { length }) => sum + length + ', '.length, 0);
  return [start, start + parameters[i].length];
};

const STARTS = new RegExp(`\\b(?:${STATEMENT_WORDS.join('|')})\\b`, 'g');

/** The forms of the statement that was begun last. */
const statementHelp = (text: string): SignatureHelp | undefined => {
  const word = [...text.matchAll(STARTS)].at(-1)?.[0];
  const signatures = snippets
    .filter((snippet) => snippet.word === word)
    .map(({ body }): SignatureInformation => ({ label: formWithExamples(body), parameters: [] }));
  if (word === undefined || signatures.length === 0) return undefined;
  signatures[0].documentation = wordMeaning(word);
  return { signatures, activeSignature: 0 };
};

/** A form with an example where each value goes: `${1:front}` is `front`, and of a choice the first. */
export const formWithExamples = (body: string): string =>
  body
    .replaceAll(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, '$1')
    .replaceAll(/\$\{\d+:([^}]*)\}/g, '$1')
    .replaceAll(/\$\d+/g, '')
    .trimEnd();
