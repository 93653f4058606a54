import 'react';

// React's own type of `style` knows no custom properties. These are the ones that drawings of film are sized by.
declare module 'react' {
  interface CSSProperties {
    '--mm'?: string;
    '--cell'?: number;
    '--film-across'?: number;
    '--x'?: number;
    '--y'?: number;
    '--w'?: number;
    '--h'?: number;
    '--from'?: number;
    '--long'?: number;
    '--high'?: number;
    '--start'?: number;
    '--wide'?: number;
    '--bound'?: number;
    '--weld-mm'?: number;
    '--down'?: number;
    '--hole-mm'?: number;
    '--from-edge'?: number;
    '--wide-by-high'?: number;
    '--fit'?: number;
  }
}
