// Small helpers to make elements; no markup from strings but our own symbols.

type Child = Node | string | null;

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Record<string, string> = {},
  ...children: Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  for (const child of children) if (child !== null) made.append(child);
  return made;
}

export function button(text: string, act: () => void, attributes: Record<string, string> = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...attributes }, text);
  made.addEventListener('click', act);
  return made;
}

/** One of data/symbols, as an SVG element that takes the colour of the class; read as nothing by a screen reader. */
export function symbol(svg: string, className: string): SVGElement {
  const made = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement as unknown as SVGElement;
  made.setAttribute('class', `map-symbol ${className}`);
  made.setAttribute('aria-hidden', 'true');
  made.querySelector('title')?.remove();
  return made;
}
