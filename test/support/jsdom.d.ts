// The package ships no types; only what tests that parse markup outside a page use of it.
declare module 'jsdom' {
  export class JSDOM {
    constructor(markup: string);
    readonly window: { readonly document: Document };
  }
}
