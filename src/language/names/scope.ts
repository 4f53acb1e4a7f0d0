import {
  AstUtils,
  DefaultScopeComputation,
  EMPTY_SCOPE,
  stream,
  type AstNode,
  type AstNodeDescription,
  type LangiumCoreServices,
  type LangiumDocument,
  type LangiumDocuments,
  type LocalSymbols,
  type ReferenceInfo,
  type Scope,
  type ScopeProvider,
} from 'langium';
import {
  isExistingFile,
  isGroup,
  isMirror,
  isRef,
  isRepeat,
  isStrip,
  type ExistingFile,
  type Ref,
  type TubFile,
} from '../generated/ast.js';
import { reachableDocuments, thingFiles } from '../workspace/imports.js';
import { NameTable, type NameSpace } from './names.js';

/** Gathers a file's names into its `NameTable`. */
export class TubScopeComputation extends DefaultScopeComputation {
  override async collectLocalSymbols(document: LangiumDocument): Promise<LocalSymbols> {
    return Promise.resolve(this.namesOf(document));
  }

  namesOf(document: LangiumDocument): NameTable {
    return new NameTable(document.parseResult.value as TubFile, (node, name) =>
      this.descriptions.createDescription(node, name, document),
    );
  }

  override async collectExportedSymbols(document: LangiumDocument): Promise<AstNodeDescription[]> {
    const file = document.parseResult.value as TubFile;
    return (file.statements ?? []).flatMap((node) => {
      const name = this.nameProvider.getName(node);
      return name ? [this.descriptions.createDescription(node, name, document)] : [];
    });
  }
}

/**
 * A name means something of its own file, else of a file it uses, directly or not. Each look-up is a few look-ups in
 * maps, whatever the size of the files.
 */
export class TubScopeProvider implements ScopeProvider {
  private readonly documents: LangiumDocuments;
  /** Kept while one build lasts: which tables a document sees. */
  private readonly tables = new Map<LangiumDocument, readonly NameTable[]>();

  constructor(services: LangiumCoreServices) {
    this.documents = services.shared.workspace.LangiumDocuments;
    services.shared.workspace.DocumentBuilder.onUpdate(() => this.forget());
  }

  /** To be called when documents came or went, or their text changed. */
  forget(): void {
    this.tables.clear();
  }

  getScope(context: ReferenceInfo): Scope {
    const tables = this.tablesSeenBy(AstUtils.getDocument(context.container));
    if (context.property === 'leg' || context.property === 'leg2') return this.withinScope(context, tables);
    if (isMirror(context.container) || isRepeat(context.container)) {
      if (context.property === 'group') return groupScope(tables[0]);
    }
    if (context.property === 'sheet') return namesScope(tables, ['sheet']);
    const isThing = isRef(context.container) && context.property === 'target';
    if (!isThing) return namesScope(tables, ['value']);
    const group = AstUtils.getContainerOfType(context.container, isGroup);
    return namesScope(tables, ['thing', 'machine'], group);
  }

  /** The names after the first of a reference. */
  private withinScope(context: ReferenceInfo, tables: readonly NameTable[]): Scope {
    const whole = partOfRef(context)?.target?.ref;
    const isOfFile = isExistingFile(whole);
    const seen = isOfFile ? this.tablesOfThing(whole) : tables;
    if (context.property === 'leg2') return memberScope(seen, partOfRef(context)?.leg?.ref);
    return isOfFile ? namesScope(seen, ['thing']) : memberScope(tables, whole);
  }

  private tablesOfThing(thing: ExistingFile): readonly NameTable[] {
    const table = tableOfThing(this.documents, thing);
    return table ? [table] : [];
  }

  private tablesSeenBy(document: LangiumDocument): readonly NameTable[] {
    const known = this.tables.get(document);
    if (known) return known;
    const files = reachableDocuments(this.documents, document);
    const seen = files.flatMap(({ localSymbols }) => (localSymbols instanceof NameTable ? [localSymbols] : []));
    // Who asks while a file is still being read must not decide what is found afterwards.
    if (seen.length === files.length) this.tables.set(document, seen);
    return seen;
  }
}

/** The names of the tub that a thing is taken from, those of its own file alone; undefined where it is taken from no tub. */
export const tableOfThing = (documents: LangiumDocuments, thing: ExistingFile): NameTable | undefined => {
  const file = thingFiles(documents, AstUtils.getDocument(thing)).find(({ statement }) => statement === thing);
  const symbols = file?.uri && documents.getDocument(file.uri)?.localSymbols;
  return symbols instanceof NameTable ? symbols : undefined;
};

/** Within a group its own things come first. */
const namesScope = (tables: readonly NameTable[], spaces: readonly NameSpace[], group?: AstNode): Scope => {
  const find = (name: string): AstNodeDescription | undefined => {
    const own = group && tables[0]?.member(group, name);
    if (own) return own;
    for (const table of tables) {
      for (const space of spaces) {
        const found = table.get(space, name) ?? (space === 'thing' ? table.short(name) : undefined);
        if (found) return found;
      }
    }
    return undefined;
  };
  return scopeOf(find, function* () {
    for (const table of tables) for (const space of spaces) yield* table.all(space);
  });
};

/** The groups of the file itself. */
const groupScope = (table: NameTable | undefined): Scope =>
  scopeOf(
    (name) => {
      const found = table?.get('thing', name);
      return isGroup(found?.node) ? found : undefined;
    },
    () => [...(table?.named('thing') ?? [])].filter(({ node }) => isGroup(node)),
  );

const partOfRef = ({ container }: ReferenceInfo): Ref | undefined => (isRef(container) ? container : undefined);

/** The legs of a strip, the things of a group. */
const memberScope = (tables: readonly NameTable[], whole: AstNode | undefined): Scope => {
  if (!isStrip(whole) && !isGroup(whole)) return EMPTY_SCOPE;
  const find = (name: string): AstNodeDescription | undefined => {
    for (const table of tables) {
      const found = isStrip(whole) ? table.leg(whole, name) : table.member(whole, name);
      if (found) return found;
    }
    return undefined;
  };
  return scopeOf(find, function* () {
    for (const table of tables) yield* isStrip(whole) ? table.legs(whole) : table.members(whole);
  });
};

const scopeOf = (
  find: (name: string) => AstNodeDescription | undefined,
  all: () => Iterable<AstNodeDescription>,
): Scope => ({
  getElement: find,
  getElements: (name) => {
    const found = find(name);
    return stream(found ? [found] : []);
  },
  getAllElements: () => stream(all()),
});
