import type { LedgerNode } from '../session-types.ts';

/** A derivation as an indented text: value, unit and share first, then formula, source and note. */
export function treeText(node: LedgerNode, depth = 0): string {
  const indent = '  '.repeat(depth);
  const share = node.share === undefined ? '' : `, share ${Math.round(node.share * 1e4) / 100} %`;
  const shown = typeof node.value === 'number' ? Number(node.value.toPrecision(12)) : node.value;
  const value = shown === null ? 'no record' : `${shown}${node.unit ? ` ${node.unit}` : ''}`;
  const lines = [
    `${indent}${node.label}: ${value}${share}`,
    ...(node.formula ? [`${indent}  = ${node.formula}`] : []),
    ...(node.source ? [`${indent}  from ${node.source}`] : []),
    ...(node.note ? [`${indent}  (${node.note})`] : []),
  ];
  return [...lines, ...(node.inputs ?? []).map((input) => treeText(input, depth + 1))].join('\n');
}
