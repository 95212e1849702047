type Child = Node | string | undefined;
type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** One HTML element. `true` is an empty attribute; `false` and `undefined` are left out. */
export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== false) made.setAttribute(key, value === true ? '' : String(value));
  }
  made.append(...children.filter((child): child is Node | string => child !== undefined));
  return made;
}

/** A button that does something. */
export function button(label: string, attributes: Attributes, press: () => void): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, label);
  made.addEventListener('click', press);
  return made;
}

/** Puts a drawing of ours in place of what a box held. Its text is escaped where it is drawn. */
export function showDrawing(box: Element, svg: string): void {
  box.innerHTML = svg;
}
