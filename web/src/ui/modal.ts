// SPDX-License-Identifier: Apache-2.0
// Opens a <dialog> over the page for as long as it is there, and gives the focus back to what had it before: the browser
// does so only for a dialog that is closed before it is taken out.
export function modal(node: HTMLDialogElement): () => void {
  const before = document.activeElement;
  node.showModal();
  return () => {
    node.close();
    queueMicrotask(() => {
      const lost = document.activeElement === null || document.activeElement === document.body;
      if (lost && before instanceof Element && before.isConnected) (before as HTMLElement | SVGElement).focus();
    });
  };
}
