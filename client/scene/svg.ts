/** Making SVG elements in one short call. Knows nothing of benches. */

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Attributes that are undefined are left out; children may be text. */
export function el<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: ReadonlyArray<Node | string>
): SVGElementTagNameMap[K] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== undefined) made.setAttribute(name, String(value));
  made.append(...children);
  return made;
}

/** Two decimals are a hundredth of a pixel at rest, and keep the document short. */
export const short = (n: number): string => String(Math.round(n * 100) / 100);

/** A path that moves through points. */
export const through = (points: ReadonlyArray<readonly [number, number]>): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');

/** Makes these the children of a layer, in this order; what stands there already stays untouched, so that only what is new is laid out and painted. */
export function layIn(layer: Element, children: readonly Element[]): void {
  const wanted = new Set(children);
  for (const child of [...layer.children]) if (!wanted.has(child)) child.remove();
  let at = layer.firstElementChild;
  for (const child of children)
    if (child === at) at = at.nextElementSibling;
    else if (at && child === at.nextElementSibling) {
      // this one alone goes elsewhere: its turn comes
      at.remove();
      at = child.nextElementSibling;
    } else layer.insertBefore(child, at);
}
