/** What we use of fontkit, the font reader that comes with pdfkit; it ships no types. */
declare module 'fontkit' {
  export interface GlyphPath {
    readonly commands: readonly {
      readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
      readonly args: readonly number[];
    }[];
  }
  export interface Glyph {
    readonly id: number;
    readonly advanceWidth: number;
    readonly path: GlyphPath;
  }
  export interface Font {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly characterSet: readonly number[];
    glyphForCodePoint(codePoint: number): Glyph;
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  export function create(content: Buffer): Font;
}
