import { GrammarAST, type Grammar } from 'langium';
import { TubGrammar } from '../src/language/generated/grammar.js';
import type { Dice } from './dice.js';
import { ODD_NUMBERS, PLAIN_NUMBERS } from './words.js';

/** Where in the grammar a piece is written. */
interface Place {
  readonly rule: string;
  readonly property: string;
  readonly depth: number;
}

const DEEPEST = 14;

/** What an expression mostly is, by the property that holds it; a length unless it stands here. */
const UNITS: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^(angle|within|nose|angleAtMost|bendsWithin|atLeast)$/, ['deg']],
  [/^(rate|solidsRate)$/, ['L/min', 'gal/min', 'L/h']],
  [/^(capacity|working)$/, ['L', 'gal']],
  [/^force$/, ['ton', 'kN', 't']],
  [/^(k|count|spots|mesh|blocked)$/, ['']],
  [/^viscosity$/, ['cSt']],
  [/^density$/, ['kg/m3']],
];
const POINTS = /^(center|point)$/;
const ALL_UNITS = ['', '', 'mm', 'in', 'deg', '%', 'L', 'L/min', 'kN', 'kg', 'cSt', 'm', 'ft', 'ga'];

/**
 * Statements in the forms that the grammar allows, with names that stand in the text and values that mostly fit their
 * place: random enough to come where nobody goes, right enough to be worked out.
 */
export class GrammarWriter {
  private readonly grammar: Grammar = TubGrammar();
  private readonly names = new Map<string, string[]>();
  private made = 0;

  constructor(
    private readonly dice: Dice,
    text: string,
  ) {
    for (const [, kind, name] of text.matchAll(
      /\b(sheet|strip|side|panel|point|let|flange|outlet|tank|hole)\s+([A-Za-z]\w*)/g,
    ))
      this.know(kind, name);
  }

  statement(): string {
    return this.call('Statement', { rule: 'TubFile', property: '', depth: 0 });
  }

  private know(kind: string, name: string): void {
    this.names.set(kind, [...(this.names.get(kind) ?? []), name]);
  }

  private rule(name: string): GrammarAST.AbstractRule {
    return this.grammar.rules.find((rule) => rule.name === name)!;
  }

  private expand(element: GrammarAST.AbstractElement, place: Place): string {
    const words: string[] = [];
    for (let i = this.timesOf(element, place); i > 0; i--) words.push(this.once(element, place));
    return words.filter((word) => word !== '').join(' ');
  }

  private timesOf({ cardinality }: GrammarAST.AbstractElement, { depth }: Place): number {
    if (cardinality === undefined) return 1;
    const least = cardinality === '+' ? 1 : 0;
    if (depth > DEEPEST) return least;
    if (cardinality === '?') return this.dice.below(2);
    return least + (this.dice.onceIn(2) ? this.dice.below(3) : this.dice.below(6));
  }

  private once(element: GrammarAST.AbstractElement, place: Place): string {
    if (GrammarAST.isKeyword(element)) return element.value;
    if (GrammarAST.isGroup(element)) return element.elements.map((each) => this.expand(each, place)).join(' ');
    if (GrammarAST.isAlternatives(element)) return this.expand(this.dice.of(element.elements), place);
    if (GrammarAST.isCrossReference(element)) return this.nameOf(element.type.$refText);
    if (GrammarAST.isRuleCall(element)) return this.call(element.rule.$refText, place);
    if (GrammarAST.isAssignment(element)) return this.assigned(element, place);
    return '';
  }

  private assigned({ feature, terminal }: GrammarAST.Assignment, place: Place): string {
    const isNew = feature === 'name' && GrammarAST.isRuleCall(terminal) && /ID|AnyName/.test(terminal.rule.$refText);
    if (!isNew) return this.expand(terminal, { ...place, property: feature });
    const name = this.dice.onceIn(12) ? this.anyName() : `made${this.made++}`;
    this.know(place.rule === 'Leg' ? 'panel' : place.rule.toLowerCase(), name);
    return name;
  }

  private call(name: string, place: Place): string {
    if (/^(Expression|Atom|ListItem)$/.test(name)) return this.expression(name, place);
    switch (name) {
      case 'ID':
        return this.anyName();
      case 'NUMBER':
        return this.number();
      case 'FRACTION':
        return this.dice.of(['1/2', '5/8', '2 1/2', '5/0']);
      case 'STRING':
        return this.dice.of(['"one"', '"shop.tub"', '"two three"', '""']);
      case 'STEEL':
        return 'DC04';
      case 'THREAD':
        return this.dice.of(['M3', 'M5', 'M6', 'M99', 'M0']);
    }
    const rule = this.rule(name);
    if (!GrammarAST.isParserRule(rule)) return '';
    return this.expand(rule.definition, { rule: name, property: place.property, depth: place.depth + 1 });
  }

  private number(): string {
    return this.dice.of(this.dice.onceIn(8) ? ODD_NUMBERS : PLAIN_NUMBERS);
  }

  private nameOf(type: string): string {
    if (this.dice.onceIn(15)) return this.anyName();
    const kinds: Readonly<Record<string, readonly string[]>> = {
      Sheet: ['sheet'],
      Leg: ['panel'],
      Value: ['let', 'point'],
      Thing: ['strip', 'panel', 'side', 'flange', 'outlet'],
    };
    const known = (kinds[type] ?? []).flatMap((kind) => this.names.get(kind) ?? []);
    return known.length === 0 ? this.anyName() : this.dice.of(known);
  }

  private anyName(): string {
    const known = [...this.names.values()].flat();
    return known.length === 0 || this.dice.onceIn(20)
      ? this.dice.of(['a', 'b', 'rim', 'mm', 'back'])
      : this.dice.of(known);
  }

  private expression(kind: string, place: Place): string {
    const { rule, property, depth } = place;
    const isPoint = POINTS.test(property) || (/^(from|to)$/.test(property) && rule !== 'Size') || rule === 'Point';
    if (isPoint && !this.dice.onceIn(12)) return this.point();
    const inBrackets = (text: string): string => (kind === 'Expression' ? text : `(${text})`);
    switch (this.dice.below(depth > DEEPEST ? 1 : 12)) {
      case 9:
        return inBrackets(
          `${this.quantity(property)} ${this.dice.of(['+', '-', '*', '/'])} ${this.quantity(property)}`,
        );
      case 10:
        return inBrackets(`-${this.quantity(property)}`);
      case 11: {
        const values = [...(this.names.get('let') ?? [])];
        return values.length === 0 ? this.quantity(property) : inBrackets(this.dice.of(values));
      }
      default:
        return this.quantity(property);
    }
  }

  private quantity(property: string): string {
    const fitting = UNITS.find(([of]) => of.test(property))?.[1] ?? ['', 'mm', 'mm', 'in'];
    return `${this.number()} ${this.dice.of(this.dice.onceIn(15) ? ALL_UNITS : fitting)}`.trim();
  }

  private point(): string {
    const known = this.names.get('point') ?? [];
    const panels = this.names.get('panel') ?? [];
    if (known.length > 0 && this.dice.onceIn(3)) return this.dice.of(known);
    if (panels.length > 0 && this.dice.onceIn(2)) return `center(${this.dice.of(panels)})`;
    const sign = (): string => (this.dice.onceIn(6) ? '-' : '');
    return `(${sign()}${this.number()}, ${sign()}${this.number()}, ${sign()}${this.number()})`;
  }
}
