import fc from 'fast-check';
import type { LangiumDocument } from 'langium';
import { expect, test } from 'vitest';
import type { TubFile } from '../../src/language/generated/ast.js';
import { MOST_SLOTS, slotsOf } from '../../src/language/lower/text/statement-slots.js';

/** A document as far as its statements' texts go; an edit gives it others. */
const documentOf = (): { readonly slots: (texts: readonly string[]) => readonly number[] } => {
  const document = { parseResult: { value: { statements: [] as unknown[] } } };
  return {
    slots: (texts) => {
      document.parseResult.value.statements = texts.map((text) => ({ $cstNode: { text } }));
      return slotsOf(document as unknown as LangiumDocument<TubFile>);
    },
  };
};

const statements = Array.from({ length: 40 }, (_, i) => `statement ${i}`);

test('a statement put in or taken away moves no other number', () => {
  const document = documentOf();
  const before = document.slots(statements);
  const longer = document.slots([...statements.slice(0, 17), 'let spare = 1', ...statements.slice(17)]);
  expect([...longer.slice(0, 17), ...longer.slice(18)]).toEqual(before);
  expect(document.slots(statements)).toEqual(before);
});

test('a statement that is typed in keeps its number', () => {
  const document = documentOf();
  const before = document.slots(statements);
  expect(document.slots(statements.map((text, i) => (i === 5 ? `${text}0` : text)))).toEqual(before);
});

test('numbers rise with the text after any edits, also where one place is written at again and again', () => {
  const edit = fc.record({ at: fc.nat(60), taken: fc.nat(5), put: fc.nat(5) });
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 60 }), fc.nat(40), (edits, place) => {
      const document = documentOf();
      let texts = statements;
      const holds = (): void => {
        const slots = document.slots(texts);
        expect(slots).toHaveLength(texts.length);
        slots.forEach((slot, i) => expect(slot).toBeGreaterThan(i === 0 ? 0 : slots[i - 1]));
        expect(slots[slots.length - 1] ?? 0).toBeLessThan(MOST_SLOTS);
      };
      holds();
      for (const [serial, { at, taken, put }] of edits.entries()) {
        const fresh = Array.from({ length: put }, (_, i) => `new ${serial}.${i}`);
        texts = [...texts.slice(0, at), ...fresh, ...texts.slice(at + taken)];
        holds();
      }
      for (let i = 0; i < 40; i++) {
        texts = [...texts.slice(0, place), `again ${i}`, ...texts.slice(place)];
        holds();
      }
    }),
    { numRuns: 30, seed: 97 },
  );
});
