/** The part of jsdom the tests use; its own types are not installed. */
declare module 'jsdom' {
  export class JSDOM {
    constructor(
      html: string,
      options?: { readonly url?: string; readonly contentType?: string; readonly runScripts?: 'outside-only' },
    );
    readonly window: Window & typeof globalThis;
  }
}
