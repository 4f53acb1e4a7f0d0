import { AstUtils, CstUtils, type AstNode, type LangiumDocument, type LangiumDocuments, type Lexer } from 'langium';
import { DefaultRenameProvider } from 'langium/lsp';
import {
  ResponseError,
  type RenameParams,
  type TextDocumentPositionParams,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import { isGroup, isLeg, isLet, isMirror, isRepeat, type TubFile } from '../generated/ast.js';
import { writtenOf } from '../made-groups.js';
import { NameTable, nameSpaceOf } from '../names/names.js';
import { composed, NAME_RULE, NAME_SIGN } from '../parser/name-letters.js';
import { FUNCTION_WORDS, RESERVED_WORDS, UNIT_WORDS } from '../parser/words.js';
import type { TubServices } from '../services.js';
import { reachableDocuments } from '../workspace/imports.js';

/** JSON-RPC: the request cannot be done as asked. */
const INVALID_PARAMS = -32602;

/** Renames a name and all that refer to it, in every file; refuses a name that the text could not hold, or that is taken. */
export class TubRename extends DefaultRenameProvider {
  private readonly documents: LangiumDocuments;
  private readonly lexer: Lexer;

  constructor(services: TubServices) {
    super(services);
    this.documents = services.shared.workspace.LangiumDocuments;
    this.lexer = services.parser.Lexer;
  }

  override async rename(document: LangiumDocument, params: RenameParams): Promise<WorkspaceEdit | undefined> {
    const target = this.targetAt(document, params.position);
    if (isRepeat(target))
      throw new ResponseError(
        INVALID_PARAMS,
        `\`repeat\` makes this name of ${target.group.$refText}; rename ${target.group.$refText}`,
      );
    const newName = composed(params.newName);
    const fault = this.faultOfLetters(newName) ?? faultOf(newName, target) ?? (target && this.clashOf(target, newName));
    if (fault) throw new ResponseError(INVALID_PARAMS, fault);
    return withCopies(await super.rename(document, { ...params, newName }), this.madeOf(target, newName));
  }

  /** A text in quotes is a title, not a name: nothing refers to it. */
  protected override renameNodeRange(
    document: LangiumDocument,
    position: TextDocumentPositionParams['position'],
  ): Range | undefined {
    const range = super.renameNodeRange(document, position);
    return range && !document.textDocument.getText(range).startsWith('"') ? range : undefined;
  }

  private targetAt(
    { parseResult, textDocument }: LangiumDocument,
    position: RenameParams['position'],
  ): AstNode | undefined {
    const root = parseResult.value.$cstNode;
    const offset = textDocument.offsetAt(position);
    const leaf = root && CstUtils.findDeclarationNodeAtOffset(root, offset, this.grammarConfig.nameRegexp);
    const found = leaf && this.references.findDeclarations(leaf)[0];
    return found && writtenOf(found);
  }

  private faultOfLetters(name: string): string | undefined {
    const { tokens, errors } = this.lexer.tokenize(name);
    const isWord = errors.length === 0 && tokens.length === 1 && tokens[0].image === name && WORD.test(name);
    return isWord ? undefined : `"${name}" is not a name; ${NAME_RULE}, and start with a letter`;
  }

  /** `leg2` and `leg3` follow when `leg` is renamed. */
  private madeOf(target: AstNode | undefined, newName: string): readonly CopyEdit[] {
    if (!isGroup(target) && !isMirror(target)) return [];
    const { name } = target;
    const file = AstUtils.getDocument(target).parseResult.value as TubFile;
    const repeats = (file.statements ?? []).filter(isRepeat).filter(({ group }) => group.$refText === name);
    return repeats.flatMap((repeat) =>
      this.references
        .findReferences(repeat, {})
        .map(({ sourceUri, segment }) => {
          const document = this.documents.getDocument(sourceUri);
          const written = document?.textDocument.getText(segment.range) ?? '';
          const edit = { range: segment.range, newText: `${newName}${written.slice(name.length)}` };
          return { uri: sourceUri.toString(), edit };
        })
        .toArray(),
    );
  }

  /** What has that name already, in a file that sees the renamed one or is seen by it. */
  private clashOf(target: AstNode, name: string): string | undefined {
    const own = AstUtils.getDocument(target);
    for (const document of this.documents.all) {
      const seen = reachableDocuments(this.documents, document);
      if (!seen.some((each) => each === own)) continue;
      for (const { localSymbols } of seen) {
        const taken = localSymbols instanceof NameTable ? takenIn(localSymbols, target, name) : undefined;
        if (taken && writtenOf(taken) !== target)
          return `There is ${wordOf(taken)} called ${name} already; choose another name`;
      }
    }
    return undefined;
  }
}

interface CopyEdit {
  readonly uri: string;
  readonly edit: TextEdit;
}

const withCopies = (edit: WorkspaceEdit | undefined, copies: readonly CopyEdit[]): WorkspaceEdit | undefined => {
  if (!edit || copies.length === 0) return edit;
  const changes = { ...edit.changes };
  for (const copy of copies) changes[copy.uri] = [...(changes[copy.uri] ?? []), copy.edit];
  return { ...edit, changes };
};

/** Legs and things of a group share their names with their kin alone, and those of the file by their short name. */
const takenIn = (table: NameTable, target: AstNode, name: string): AstNode | undefined => {
  const space = isLeg(target) ? 'thing' : nameSpaceOf(target);
  if (space === undefined) return undefined;
  const whole = target.$container;
  if (isLeg(target)) return (whole && table.leg(whole, name)?.node) ?? undefined;
  if (isGroup(whole) && space === 'thing') return table.member(whole, name)?.node;
  return table.get(space, name)?.node ?? (space === 'thing' ? table.short(name)?.node : undefined);
};

const wordOf = ({ $type }: AstNode): string => {
  const word = $type.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  return `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`;
};

/** Names that a `let` may have though they start statements. */
const ALSO_VALUES: ReadonlySet<string> = new Set(['rim', 'level', 'side', 'hole', 'slot']);

/** No sign of another kind, and no digit first. */
const WORD = new RegExp(`^(?!\\d)${NAME_SIGN}+$`, 'u');

/** What a builder would take for a number's unit, a function or a thread, and a word that computers keep for themselves. */
const MISLEADING: ReadonlySet<string> = new Set([...UNIT_WORDS, ...FUNCTION_WORDS, '__proto__']);

const faultOf = (name: string, target: AstNode | undefined): string | undefined => {
  if (isLet(target) && ALSO_VALUES.has(name)) return undefined;
  if (RESERVED_WORDS.has(name)) return `"${name}" is a word of the language; choose another name`;
  if (MISLEADING.has(name) || /^M[0-9]+$/.test(name))
    return `"${name}" would be read as a unit, a function or a thread; choose another name`;
  return undefined;
};
