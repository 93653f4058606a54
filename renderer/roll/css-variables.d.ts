import 'react';

declare module 'react' {
  interface CSSProperties {
    /** How high a line of the ledger is, with its unit. */
    '--line-px'?: string;
  }
}
