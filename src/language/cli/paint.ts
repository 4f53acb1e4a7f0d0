import type { Severity } from '../../analysis/model/finding.js';

/** Marks words for a terminal; plain text where colour is not wanted. Meaning never hangs on colour alone. */
export interface Paint {
  readonly severity: (severity: Severity, text: string) => string;
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
}

const ESCAPE = '\u001b[';
const CODES: Readonly<Record<Severity, string>> = { error: '31;1', warning: '33;1', info: '36;1' };
const wrap = (code: string, text: string): string => `${ESCAPE}${code}m${text}${ESCAPE}0m`;

export const colorPaint: Paint = {
  severity: (severity, text) => wrap(CODES[severity], text),
  strong: (text) => wrap('1', text),
  quiet: (text) => wrap('2', text),
};

export const plainPaint: Paint = { severity: (_severity, text) => text, strong: (text) => text, quiet: (text) => text };

/** Colour on a terminal that has it, unless NO_COLOR says otherwise; FORCE_COLOR asks for it anywhere (common conventions). */
export const choosePaint = (isTerminal: { readonly isTTY?: boolean }, environment: NodeJS.ProcessEnv): Paint => {
  if (environment.NO_COLOR) return plainPaint;
  if (environment.FORCE_COLOR && environment.FORCE_COLOR !== '0') return colorPaint;
  return isTerminal.isTTY && environment.TERM !== 'dumb' ? colorPaint : plainPaint;
};
