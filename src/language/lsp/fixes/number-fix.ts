import { asWritten } from '../../solve/neat-values.js';
import type { Fix } from './fix.js';
import type { NumberChange } from './one-number.js';
import { rangeOfProperty } from './text-fixes.js';

/** New numbers as a fix of the text; undefined where one of them does not stand in it. */
export const numberFix = (changes: readonly NumberChange[], preferred: boolean): Fix | undefined => {
  const edits = changes.flatMap(({ literal, value }) => {
    const range = rangeOfProperty(literal.node, 'value');
    return range ? [{ range, newText: asWritten(value, literal.node) }] : [];
  });
  if (edits.length < changes.length) return undefined;
  const words = changes.map(wordsOf).join(' and ');
  const why = changes.length === 1 ? 'computed to pass' : 'neither is enough alone';
  return { title: `Set ${words}: ${why}`, edits, preferred };
};

const wordsOf = ({ literal: { node, name }, value }: NumberChange): string => {
  const subject = name.startsWith('`') ? name : `the ${name}`;
  return `${subject} to ${asWritten(value, node)}${node.unit === undefined ? '' : ` ${node.unit}`}`;
};
