/** Whether keys go into text that is being written, so that a shortcut must leave them alone. */
export function isWriting(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement) return true;
  return (
    target instanceof HTMLInputElement && !['checkbox', 'radio', 'button', 'range'].includes(target.type)
  );
}
