import { describe, expect, it } from 'vitest';
import { csvCell, exportMark, isOwnExport, nameHash } from '../../src/files/own-mark.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

it.each([
  // IETF RFC 9923, section "Test Vectors", FNV-1a of 64 bits, without the null byte at the end.
  ['', 'cbf29ce484222325'],
  ['a', 'af63dc4c8601ec8c'],
  ['foobar', '85944171f73967e8'],
])('hashes %j as published', (text, hash) => {
  expect(nameHash(text)).toBe(hash);
});

it('marks differ for names that differ in any letter, also beyond the first sixty and outside ASCII', () => {
  const long = 'a rinse basin for the bench by the north window of the second workshop, ';
  const names = ['水槽', 'Ванна', '洗い場', 'tub', 'Tub', `${long}left`, `${long}right`];
  expect(new Set(names.map(exportMark)).size).toBe(names.length);
  for (const name of names) expect(exportMark(name)).toMatch(/^[\x21-\x7e ]{1,60}$/);
});

it('a name is the same however its accents were typed', () => {
  expect(exportMark('Łódź'.normalize('NFD'))).toBe(exportMark('Łódź'.normalize('NFC')));
});

describe('a list for spreadsheets', () => {
  const heads = ['tub,part,mass_kg', 'tub,bend'];
  const own = (text: string, tub = 'Pan, "wide"'): boolean => isOwnExport(bytes(text), tub, heads);
  const cell = csvCell('Pan, "wide"');

  it('is known by its first line and by the tub in every row', () => {
    expect(cell).toBe('"Pan, ""wide"""');
    expect(own(`tub,part,mass_kg\r\n${cell},floor,1\r\n${cell},wall,2\r\n`)).toBe(true);
    expect(own(`tub,part,mass_kg\r\n${cell},floor,1\r\n`, 'Pan')).toBe(false);
  });

  it('is anybody’s when it has no row', () => expect(own('tub,bend\r\n')).toBe(true));

  it.each([
    ['another column', `tub,part,mass_kg,notes\r\n${cell},floor,1,seen\r\n`],
    ['a row of another tub', `tub,bend\r\n${cell},floor\r\nPan,wall\r\n`],
    ['a row without a tub', `tub,bend\r\n${cell},floor\r\nask for a price\r\n`],
    ['the line ends of another program', `tub,bend\n${cell},floor\n`],
    ['a last line without an end', `tub,bend\r\n${cell},floor`],
    ['nothing', ''],
  ])('is not known with %s', (_, text) => expect(own(text)).toBe(false));
});
