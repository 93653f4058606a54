/** What pages are commonly made of; another material may be written. */
export const MATERIALS = ['polyester', 'polypropylene', 'polyethylene', 'paper', 'PVC'] as const;

/**
 * What there is to warn of in a page's material, or null.
 * Source: H. Wilhelm, The Permanence and Care of Color Photographs, 1993, ch. 14: uncoated polyester is recommended,
 * uncoated polypropylene second; PVC is among the plastics to avoid. Polyethylene, which he also judges with reserve,
 * is widely sold for keeping film, so there is no warning of it: our choice.
 */
export function warnOfMaterial(material: string | null): string | null {
  if (material === null || !/\bpvc\b|vinyl/i.test(material)) return null;
  return 'Film should not stay in PVC. Wilhelm (The Permanence and Care of Color Photographs, ch. 14) lists it among the plastics to avoid; uncoated polyester is recommended, uncoated polypropylene second.';
}
