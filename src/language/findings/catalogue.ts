import type { Severity } from '../../analysis/model/finding.js';

/**
 * Every finding that the text itself can give, before any check of the tub. Each has its page in
 * `findings/<family>/<slug>.md` and its fixtures in `tests/fixtures/language/<family>/<slug>/`.
 */
export const languageFindings = {
  'text/syntax': 'error',
  'text/unknown-name': 'error',
  'text/duplicate-name': 'error',
  'text/reserved-name': 'error',
  'text/unclear-name': 'error',
  'text/stated-twice': 'error',
  'text/wrong-kind': 'error',
  'text/no-such-edge': 'error',
  'text/unknown-code': 'warning',
  'text/empty-reason': 'warning',
  'unit/missing': 'error',
  'unit/mixed': 'error',
  'unit/wrong': 'error',
  'value/not-a-number': 'error',
  'value/out-of-range': 'error',
  'let/cycle': 'error',
  'let/too-long-a-chain': 'error',
  'use/missing-file': 'error',
  'use/cycle': 'error',
  'use/not-a-tub': 'error',
  'use/outside-workspace': 'error',
  'use/has-errors': 'warning',
  'use/set-aside': 'info',
  'use/taken-over': 'info',
  'sheet/no-thickness': 'error',
  'sheet/unknown-gauge': 'error',
  'sheet/coupon-incomplete': 'error',
  'strip/headings': 'error',
  'strip/no-legs': 'error',
  'strip/out-of-reach': 'error',
  'strip/same-slope': 'error',
  'side/not-an-end': 'error',
  'side/level-too-low': 'error',
  'flange/turn-unclear': 'error',
  'flange/no-wet-side': 'error',
  'flange/trims-meet': 'error',
  'rim/no-gap': 'error',
  'hole/no-diameter': 'error',
  'outlet/no-cloth': 'error',
  'tank/no-working-volume': 'error',
  'liquid/unknown': 'error',
  'shop/machine-incomplete': 'warning',
  'internal/language-failed': 'warning',
} as const satisfies Record<string, Severity>;

export type LanguageCode = keyof typeof languageFindings;
