/**
 * Gives the page of a test what jsdom has not: boxes of a stated size for scrolling lists, scrolling that tells, and
 * modal dialogs. Nothing is laid out: every element is as large as is said here.
 */
export function giveLayout(size: { width: number; height: number }): void {
  const sized: PropertyDescriptorMap = {
    offsetWidth: { configurable: true, get: () => size.width },
    offsetHeight: { configurable: true, get: () => size.height },
    clientHeight: { configurable: true, get: () => size.height },
  };
  Object.defineProperties(HTMLElement.prototype, sized);
  Object.defineProperty(HTMLElement.prototype, 'scrollTo', {
    configurable: true,
    value(this: HTMLElement, options: ScrollToOptions) {
      this.scrollTop = options.top ?? 0;
      this.dispatchEvent(new Event('scroll'));
    },
  });
  Object.defineProperties(HTMLDialogElement.prototype, {
    showModal: {
      configurable: true,
      value(this: HTMLDialogElement) {
        this.open = true;
      },
    },
    close: {
      configurable: true,
      value(this: HTMLDialogElement) {
        this.open = false;
      },
    },
  });
}
