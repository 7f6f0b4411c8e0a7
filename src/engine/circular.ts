import { serializeRange } from '@univerjs/engine-formula';
import type { ErrorValueObject, FormulaDependencyTree, IDependencyManagerService } from '@univerjs/engine-formula';
import { circularReference } from '../core/messages.ts';
import { errorValue } from './error-text.ts';

/** How many cells of a circle its message names. */
const MOST_NAMED = 6;

/** Larger circles have one message for all their cells. */
const MOST_TRACED = 100;

/** A cell of the engine as a key. */
export const placeKey = (unit: string, sheet: string, row: number, column: number): string =>
  `${unit}|${sheet}|${row}|${column}`;

/** The cells that stand in a circle, each with an error that says which cells it runs through. */
export function circularCells(
  trees: readonly FormulaDependencyTree[],
  dependencies: IDependencyManagerService,
): ReadonlyMap<string, ErrorValueObject> {
  const circular = new Map<string, ErrorValueObject>();
  const cells = trees.filter((tree) => tree.formulaId == null && tree.featureId == null);
  const byId = new Map(cells.map((tree) => [tree.treeId, tree]));
  const usedBy = (id: number): number[] => {
    const tree = byId.get(id);
    return tree ? [...dependencies.searchDependency(tree.toRTreeItem())].filter((other) => byId.has(other)) : [];
  };
  for (const circle of circles([...byId.keys()], usedBy)) {
    const members = new Set(circle);
    const way = (start: number): string =>
      named(wayRound(start, members, usedBy).map((step) => address(byId.get(step))));
    const shared = circle.length > MOST_TRACED ? way(circle[0] ?? 0) : undefined;
    for (const id of circle) {
      const tree = byId.get(id);
      if (tree)
        circular.set(
          placeKey(tree.unitId, tree.subUnitId, tree.row, tree.column),
          errorValue('#CYCLE!', shared ?? way(id)),
        );
    }
  }
  return circular;
}

function named(way: readonly string[]): string {
  return circularReference(way.length > MOST_NAMED ? [...way.slice(0, MOST_NAMED - 1), '...', ...way.slice(-1)] : way);
}

function address(tree: FormulaDependencyTree | undefined): string {
  if (!tree) return '?';
  return serializeRange({ startRow: tree.row, endRow: tree.row, startColumn: tree.column, endColumn: tree.column });
}

/**
 * Groups of more than one node that reach one another, and single nodes that reach themselves.
 *
 * Strongly connected components without recursion. Source: Tarjan, Depth-first search and linear graph
 * algorithms, SIAM Journal on Computing 1 (1972) 146.
 */
export function circles(nodes: readonly number[], next: (node: number) => readonly number[]): number[][] {
  const order = new Map<number, number>();
  const low = new Map<number, number>();
  const open = new Set<number>();
  const stack: number[] = [];
  const found: number[][] = [];
  const lower = (node: number, to: number | undefined): void =>
    void low.set(node, Math.min(low.get(node) ?? Infinity, to ?? Infinity));

  for (const root of nodes) {
    if (order.has(root)) continue;
    const path: { readonly node: number; readonly to: readonly number[]; at: number }[] = [];
    const enter = (node: number): void => {
      order.set(node, order.size);
      lower(node, order.get(node));
      open.add(node);
      stack.push(node);
      path.push({ node, to: next(node), at: 0 });
    };
    enter(root);
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const child = step.to[step.at++];
      if (child !== undefined) {
        if (!order.has(child)) enter(child);
        else if (open.has(child)) lower(step.node, order.get(child));
        continue;
      }
      path.pop();
      const parent = path.at(-1);
      if (parent) lower(parent.node, low.get(step.node));
      if (low.get(step.node) !== order.get(step.node)) continue;
      const group = stack.splice(stack.lastIndexOf(step.node));
      for (const node of group) open.delete(node);
      if (group.length > 1 || step.to.includes(step.node)) found.push(group);
    }
  }
  return found;
}

/** The shortest way from a node back to itself inside its circle, read from user to used. */
function wayRound(start: number, circle: ReadonlySet<number>, usedBy: (node: number) => readonly number[]): number[] {
  const from = new Map<number, number>();
  for (let edge = [start]; edge.length > 0;) {
    const reached: number[] = [];
    for (const node of edge) {
      for (const user of usedBy(node)) {
        if (user === start) return unwind(start, node, from);
        if (!circle.has(user) || from.has(user)) continue;
        from.set(user, node);
        reached.push(user);
      }
    }
    edge = reached;
  }
  return [start];
}

function unwind(start: number, last: number, from: ReadonlyMap<number, number>): number[] {
  const way = [start];
  for (let node: number | undefined = last; node !== undefined && node !== start; node = from.get(node)) way.push(node);
  return [...way, start];
}
