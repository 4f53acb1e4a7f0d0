/** Makes the TextMate grammar from the words of the language grammar, so that the two cannot drift apart. */

/** Words of one rule of the grammar, without its other parts. */
const wordsOf = (grammar, rule) => {
  const body = new RegExp(`^${rule} returns string:([^;]*);`, 'm').exec(grammar)?.[1];
  if (!body) throw new Error(`The grammar has no rule ${rule} of words`);
  return [...body.matchAll(/'([^']+)'/g)].map((match) => match[1]);
};

/** Every quoted word of the parser rules. */
const allWords = (grammar) => {
  const rules = grammar.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^(hidden )?terminal .*$/gm, '');
  return [...new Set([...rules.matchAll(/'([A-Za-z][A-Za-z0-9]*)'/g)].map((match) => match[1]))];
};

/** Longest first, so that `L/min` is found before `L`. */
const anyOf = (words) =>
  [...words]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((word) => word.replace(/[/%]/g, '\\$&'))
    .join('|');

export const textmateGrammar = (grammar) => {
  const units = wordsOf(grammar, 'Unit');
  const functions = [...wordsOf(grammar, 'FunctionName'), 'center'];
  const statements = wordsOf(grammar, 'StatementWord');
  const materials = wordsOf(grammar, 'Material');
  const headings = [...wordsOf(grammar, 'Heading'), ...wordsOf(grammar, 'EdgeWord')];
  const special = new Set([...units, ...functions, ...statements, ...materials, ...headings]);
  const details = allWords(grammar).filter((word) => !special.has(word) && word.length > 1);
  const name = '[\\p{L}_][\\p{L}\\p{M}\\p{Nd}_]*';
  const sign = '[\\p{L}\\p{M}\\p{Nd}_]';
  const number = '(?:\\d+[ \\t]+)?\\d+/\\d+|(?:\\d+(?:\\.\\d+)?|\\.\\d+)(?:[eE][+-]?\\d+)?';
  return {
    $schema: 'https://raw.githubusercontent.com/martinring/tmlanguage/master/tmlanguage.json',
    name: 'Tub',
    scopeName: 'source.tub',
    fileTypes: ['tub'],
    patterns: [
      { include: '#comments' },
      {
        name: 'string.quoted.double.tub',
        begin: '"',
        end: '"|$',
        patterns: [{ name: 'constant.character.escape.tub', match: '\\\\.' }],
      },
      {
        match: '\\b(accept)\\s+([a-z]+/[a-z]+(?:-[a-z]+)*)',
        captures: { 1: { name: 'keyword.control.tub' }, 2: { name: 'entity.name.tag.tub' } },
      },
      {
        match: `\\b(let)\\s+(${name})`,
        captures: { 1: { name: 'keyword.control.tub' }, 2: { name: 'variable.other.constant.tub' } },
      },
      {
        match: `\\b(sheet|strip|side|point|panel|flange|outlet|liquid|tank|dry|keepout)\\s+(${name})`,
        captures: { 1: { name: 'keyword.control.tub' }, 2: { name: 'entity.name.type.tub' } },
      },
      {
        match: `(?<![\\p{L}\\p{M}\\p{Nd}_.])(${number})\\s*(${anyOf(units)})(?!${sign})`,
        captures: { 1: { name: 'constant.numeric.tub' }, 2: { name: 'keyword.other.unit.tub' } },
      },
      { name: 'constant.numeric.tub', match: `(?<![\\p{L}\\p{M}\\p{Nd}_.])(?:${number})(?!${sign})` },
      { name: 'constant.numeric.thread.tub', match: '\\bM\\d+(?:\\.\\d+)?\\b' },
      { name: 'support.function.tub', match: `\\b(?:${anyOf(functions)})(?=\\s*\\()` },
      { name: 'keyword.control.tub', match: `\\b(?:${anyOf(statements)})\\b` },
      { name: 'support.constant.material.tub', match: `\\b(?:${anyOf(materials)})\\b` },
      { name: 'variable.language.edge.tub', match: `(?<=\\.)(?:${anyOf(wordsOf(grammar, 'EdgeWord'))})\\b` },
      {
        name: 'constant.language.heading.tub',
        match: `\\b(?:heading|across)\\s+(?:${anyOf(wordsOf(grammar, 'Heading'))})\\b`,
      },
      { name: 'keyword.other.tub', match: `\\b(?:${anyOf(details)})\\b` },
      { name: 'keyword.operator.tub', match: '[=+*/-]' },
      { name: 'punctuation.tub', match: '[{}()\\[\\],.]' },
    ],
    repository: {
      comments: {
        patterns: [
          { name: 'comment.block.tub', begin: '/\\*', end: '\\*/' },
          { name: 'comment.line.double-slash.tub', match: '//.*$' },
        ],
      },
    },
  };
};
