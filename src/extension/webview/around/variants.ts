import { html } from '../dom.js';

/** The variants of the text to pick from; nothing where there are none. One that a slip takes away comes back with it. */
export class Variants {
  readonly element = html('select', { 'aria-label': 'Variant', hidden: true });

  constructor(picked: (variant: string | undefined) => void) {
    this.element.addEventListener('change', () => picked(this.element.value || undefined));
  }

  offer(variants: readonly string[], shown: string | undefined): void {
    const known = [...this.element.options].slice(1).map(({ value }) => value);
    if (known.join('\0') !== variants.join('\0'))
      this.element.replaceChildren(
        html('option', { value: '' }, 'As written'),
        ...variants.map((name) => html('option', { value: name }, name)),
      );
    this.element.hidden = variants.length === 0;
    this.element.value = shown ?? '';
  }
}
