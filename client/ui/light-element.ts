/** The base of the page's elements: drawn into the page itself, so that its style sheets and its focus order reach into them. */
import { LitElement } from 'lit';

export abstract class LightElement extends LitElement {
  protected override createRenderRoot() {
    return this;
  }
}
