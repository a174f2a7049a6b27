// SPDX-License-Identifier: Apache-2.0
// Reads the interfaces of a TypeScript file as data: property names, which may be absent, and the values of constant
// lists.
import { readFileSync } from 'node:fs';
import ts from 'typescript';

export interface Interfaces {
  readonly interfaces: ReadonlyMap<string, ReadonlyMap<string, { readonly optional: boolean }>>;
  readonly lists: ReadonlyMap<string, readonly string[]>;
}

export function readInterfaces(file: string): Interfaces {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const interfaces = new Map<string, Map<string, { optional: boolean }>>();
  const lists = new Map<string, string[]>();
  source.forEachChild((node) => {
    if (ts.isInterfaceDeclaration(node)) {
      const properties = node.members.filter(ts.isPropertySignature);
      interfaces.set(
        node.name.text,
        new Map(properties.map((property) => [(property.name as ts.Identifier).text, { optional: property.questionToken !== undefined }])),
      );
    }
    if (ts.isVariableStatement(node)) for (const { name, initializer } of node.declarationList.declarations) {
      const value = initializer && ts.isAsExpression(initializer) ? initializer.expression : initializer;
      if (!value || !ts.isArrayLiteralExpression(value)) continue;
      lists.set((name as ts.Identifier).text, value.elements.filter(ts.isStringLiteral).map(({ text }) => text));
    }
  });
  return { interfaces, lists };
}
