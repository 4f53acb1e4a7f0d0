import { DocumentState, type Cancellation, type LangiumDocument } from 'langium';
import type { CodeActionProvider } from 'langium/lsp';
import type { CodeActionParams } from 'vscode-languageserver';
import type { CodeAction, CodeActionKind, Diagnostic } from 'vscode-languageserver-types';
import type { Finding } from '../../analysis/model/finding.js';
import type { Analysis } from '../analyse.js';
import type { FindingData } from '../diagnostics/finding-data.js';
import type { TubDocument } from '../lower/text/sources.js';
import type { TubServices } from '../services.js';
import type { Services } from '../services.js';
import { REWRITE, workOutAction } from './work-out-action.js';
import { offerReadings } from '../readings/offer-readings.js';
import { acceptFix } from './fixes/accept-fix.js';
import { extractValue } from './fixes/extract-value.js';
import { certainEdits } from './fixes/fix-all.js';
import { toCodeAction, type Fix } from './fixes/fix.js';
import { holds } from './fixes/holds.js';
import { judgeOf, type Judge } from './fixes/judge.js';
import { canBeSolved } from './fixes/number-changes.js';
import { INLINE, inlineValue } from './fixes/inline-value.js';
import { NumberSearch } from './fixes/number-search.js';
import { pointsToStrip } from './fixes/points-to-strip/points-to-strip.js';
import { textFixers } from './fixes/text-fixes.js';

const QUICK_FIX = 'quickfix';
const EXTRACT = 'refactor.extract';
const FIX_ALL = 'source.fixAll';

/** What the server says it offers. */
export const CODE_ACTION_KINDS: readonly CodeActionKind[] = [QUICK_FIX, EXTRACT, INLINE, REWRITE, FIX_ALL];

/** ms. What is not worked out by then is worked out when it is chosen, if the editor can ask for that. */
const LIST_WITHIN = 40;

/** Which finding of which text an offer is about whose edit is still to be worked out. */
interface OpenOffer {
  readonly uri: string;
  readonly version: number;
  readonly finding: FindingData;
}

/**
 * What can be done about the findings under the cursor, and where each is explained; a value that can be given a name; what
 * is put right whenever a file is saved. An editor asks at every move of the cursor: only the kinds that it wants are looked
 * for, searches for numbers are kept until a text changes, and all work can be broken off.
 */
export class TubCodeActions implements CodeActionProvider {
  private searches = new Map<Finding, NumberSearch>();
  private judges = new Map<Analysis, Judge>();
  private canResolve = false;

  constructor(
    private readonly services: TubServices,
    private readonly now: () => number = () => performance.now(),
  ) {
    services.shared.workspace.DocumentBuilder.onUpdate(() => {
      this.searches = new Map();
      this.judges = new Map();
    });
    services.shared.lsp.LanguageServer.onInitialize(({ capabilities }) => {
      this.canResolve = capabilities.textDocument?.codeAction?.resolveSupport?.properties.includes('edit') ?? false;
    });
  }

  async getCodeActions(
    document: LangiumDocument,
    { context, range }: CodeActionParams,
    token?: Cancellation.CancellationToken,
  ): Promise<CodeAction[]> {
    const actions: CodeAction[] = [];
    const ours = context.diagnostics.filter(({ source }) => source === 'tubwright');
    if (isWanted(QUICK_FIX, context.only) && ours.length > 0) {
      await this.services.shared.workspace.DocumentBuilder.waitUntil(DocumentState.Validated, document.uri, token);
      const until = this.canResolve ? this.now() + LIST_WITHIN : Infinity;
      for (const diagnostic of ours) actions.push(...(await this.quickFixes(document, diagnostic, until, token)));
    }
    if (isWanted(EXTRACT, context.only)) actions.push(...extractValue(document as TubDocument, range, this.both));
    if (isWanted(INLINE, context.only)) actions.push(...inlineValue(document as TubDocument, range, this.both));
    if (isWanted(REWRITE, context.only)) {
      const evaluation = this.services.analysis.Analyses.evaluationOf(document);
      actions.push(...workOutAction(evaluation, range), ...offerReadings(evaluation, range, REWRITE));
      actions.push(...pointsToStrip(evaluation, range, REWRITE, this.both));
    }
    if (context.only && isWanted(FIX_ALL, context.only)) actions.push(...this.fixAll(document as TubDocument));
    return actions;
  }

  /** Works out the edit of an offer that was listed without one. */
  async resolve(action: CodeAction, token: Cancellation.CancellationToken): Promise<CodeAction> {
    const offer = action.data as OpenOffer | undefined;
    const document = offer && this.documentOf(offer);
    const analysis = document && this.services.analysis.Analyses.of(document);
    const finding = analysis && findingOf(offer.finding, analysis);
    if (!finding) return action;
    const [best] = (await this.searchFor(finding, analysis).resultBy(Infinity, token)) ?? [];
    if (best) return { ...action, edit: toCodeAction(best, analysis, action.diagnostics![0]).edit };
    void this.services.shared.lsp.Connection?.window.showInformationMessage(
      `No number of these statements, and no two together, put ${finding.code} right without bringing something else`,
    );
    return action;
  }

  private get both(): Services {
    return { shared: this.services.shared, tub: this.services };
  }

  private documentOf({ uri, version }: OpenOffer): TubDocument | undefined {
    const document = this.services.shared.workspace.LangiumDocuments.all.find((each) => each.uri.toString() === uri);
    return document?.textDocument.version === version ? (document as TubDocument) : undefined;
  }

  private async quickFixes(
    document: LangiumDocument,
    diagnostic: Diagnostic,
    until: number,
    token: Cancellation.CancellationToken | undefined,
  ): Promise<readonly CodeAction[]> {
    const analysis = this.services.analysis.Analyses.of(document);
    const data = diagnostic.data as FindingData | undefined;
    const finding = data && findingOf(data, analysis);
    if (!finding) return [explain(diagnostic)];
    const search = canBeSolved(finding) ? this.searchFor(finding, analysis) : undefined;
    const numbers = search ? await search.resultBy(until, token) : [];
    // Most likely the list is asked for again before anything is chosen.
    if (!numbers) void search?.resultBy(Infinity).catch(() => undefined);
    const ofText = [...(textFixers[finding.code]?.(finding, analysis) ?? [])];
    const listed = (fixes: Iterable<Fix>): readonly CodeAction[] =>
      [...fixes].map((fix) => toCodeAction(fix, analysis, diagnostic));
    return [
      ...listed(ofText.filter((fix) => holds(fix, finding, analysis, this.both))),
      ...(numbers ? listed(numbers) : [workOut(analysis, diagnostic, data)]),
      ...listed(acceptFix(finding, analysis)),
      explain(diagnostic),
    ];
  }

  private searchFor(finding: Finding, analysis: Analysis): NumberSearch {
    const { searches } = this;
    const known = searches.get(finding);
    if (known) return known;
    const search = new NumberSearch(finding, this.judgeFor(analysis), () => this.searches !== searches, this.now);
    searches.set(finding, search);
    return search;
  }

  private judgeFor(analysis: Analysis): Judge {
    const { LangiumDocuments } = this.services.shared.workspace;
    const judge = this.judges.get(analysis) ?? judgeOf(analysis, LangiumDocuments, this.services.analysis.Analyses);
    this.judges.set(analysis, judge);
    return judge;
  }

  private fixAll(document: TubDocument): readonly CodeAction[] {
    const edits = certainEdits(this.services.shared.workspace.LangiumDocuments, document);
    if (edits.length === 0) return [];
    const changes = { [document.uri.toString()]: [...edits] };
    return [{ title: 'Take out what is stated twice in the same words', kind: FIX_ALL, edit: { changes } }];
  }
}

/** A kind is wanted by its own name and by that of any group it belongs to. */
const isWanted = (kind: CodeActionKind, only: readonly CodeActionKind[] | undefined): boolean =>
  !only || only.some((each) => each === '' || kind === each || kind.startsWith(`${each}.`));

/** A finding of the text as it is now; one of an older text is not acted on. */
const findingOf = (data: FindingData, { findings }: Analysis): Finding | undefined =>
  findings.find(({ code, at, about }) => code === data.code && at === data.at && about.join() === data.about.join());

const workOut = ({ document }: Analysis, diagnostic: Diagnostic, finding: FindingData): CodeAction => {
  const offer: OpenOffer = { uri: document.uri.toString(), version: document.textDocument.version, finding };
  return { title: 'Look for a number that puts this right', kind: QUICK_FIX, diagnostics: [diagnostic], data: offer };
};

const explain = (diagnostic: Diagnostic): CodeAction => {
  const code = String(diagnostic.code);
  return {
    title: `Explain ${code}`,
    kind: QUICK_FIX,
    diagnostics: [diagnostic],
    command: { title: 'Explain', command: 'tubwright.explainFinding', arguments: [code] },
  };
};
