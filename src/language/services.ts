import type { LangiumServices, LangiumSharedServices } from 'langium/lsp';
import type { KeptAnalyses } from './kept-analyses.js';
import type { KeptOutcomes } from './solve/kept-outcomes.js';
import type { TubValidator } from './diagnostics/validate.js';
import type { TubScopeComputation, TubScopeProvider } from './names/scope.js';
import type { TubLinker } from './workspace/workspace.js';

/** What the language adds to Langium's services. */
export interface TubAddedServices {
  readonly analysis: { readonly Analyses: KeptAnalyses; readonly Outcomes: KeptOutcomes };
  /** The same services by their own types: they can also work in one go. */
  readonly direct: {
    readonly Linker: TubLinker;
    readonly ScopeComputation: TubScopeComputation;
    readonly ScopeProvider: TubScopeProvider;
    readonly Validator: TubValidator;
  };
}

export type TubServices = LangiumServices & TubAddedServices;

export interface Services {
  readonly shared: LangiumSharedServices;
  readonly tub: TubServices;
}
