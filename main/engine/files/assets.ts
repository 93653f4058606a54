/** The folder of fonts, codebooks and sample pictures that travels with the program. */
export const ASSETS = new URL('../../../assets/', import.meta.url);
