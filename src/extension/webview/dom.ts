type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An HTML element with attributes and children; `undefined` and `false` leave an attribute out. */
export const html = <K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] => {
  const element = document.createElement(tag);
  setAttributes(element, attributes);
  element.append(...children);
  return element;
};

export const svg = <K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[K] => {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  setAttributes(element, attributes);
  element.append(...children);
  return element;
};

export const setAttributes = (element: Element, attributes: Attributes): void => {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) element.removeAttribute(name);
    else element.setAttribute(name, value === true ? '' : String(value));
  }
};

/** A push button; `pressed` shows it as one of two states. */
export const button = (label: string, title: string, act: () => void, pressed?: boolean): HTMLButtonElement => {
  const element = html(
    'button',
    { type: 'button', title, 'aria-pressed': pressed === undefined ? undefined : String(pressed) },
    label,
  );
  element.addEventListener('click', act);
  return element;
};

/** A button that is on or off, off at first unless `first` says so; `act` is told which after each press. */
export const toggle = (
  label: string,
  title: string,
  act: (isOn: boolean) => void,
  first = false,
): HTMLButtonElement => {
  const element = button(
    label,
    title,
    () => {
      const isOn = element.getAttribute('aria-pressed') !== 'true';
      element.setAttribute('aria-pressed', String(isOn));
      act(isOn);
    },
    first,
  );
  return element;
};

/** A labelled slider over 0..100. */
export const slider = (label: string, value: number, act: (value: number) => void): HTMLLabelElement => {
  const input = html('input', { type: 'range', min: 0, max: 100, value, 'aria-label': label });
  input.addEventListener('input', () => act(Number(input.value)));
  return html('label', { class: 'slider' }, html('span', {}, label), input);
};

export const choice = <T extends string>(
  label: string,
  options: readonly (readonly [T, string])[],
  act: (value: T) => void,
): HTMLLabelElement => {
  const select = html(
    'select',
    { 'aria-label': label },
    ...options.map(([value, text]) => html('option', { value }, text)),
  );
  select.addEventListener('change', () => act(select.value as T));
  return html('label', { class: 'choice' }, html('span', {}, label), select);
};

/** Number for people: at most `digits` after the point, no trailing zeros. */
export const plain = (value: number, digits = 1): string => String(Number(value.toFixed(digits)));
