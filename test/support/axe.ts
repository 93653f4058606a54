import axe from 'axe-core';

/**
 * What axe finds in a part of the page, as `rule: element` lines. Contrast is left to the run in a real browser:
 * jsdom draws nothing.
 */
export async function findAxeViolations(element: Element): Promise<string[]> {
  const { violations } = await axe.run(element, { rules: { 'color-contrast': { enabled: false } } });
  return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 120)}`));
}
