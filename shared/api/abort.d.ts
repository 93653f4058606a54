// The two globals for calling work off, which Node, browsers and Electron all have. Declared here because this
// folder is compiled without the types of any of them; each of them brings its own, fuller declaration.

interface AbortSignal {
  readonly aborted: boolean;
  addEventListener(type: 'abort', listener: () => void, options?: { once?: boolean }): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}

declare class AbortController {
  readonly signal: AbortSignal;
  abort(): void;
}
