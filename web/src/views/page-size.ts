// SPDX-License-Identifier: Apache-2.0
// Tells the browser the size of the paper. As a constructed stylesheet: the policy forbids style elements, and a page
// rule takes no variables.

/** Sets the paper until the function that it returns is called. Without margins: the sheet brings its own. */
export function pageSize(widthMm: number, heightMm: number): () => void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`@page { size: ${widthMm}mm ${heightMm}mm; margin: 0; }`);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== sheet);
  };
}
