import { UnreadableFile } from './unreadable.ts';
import { partText, readXml } from './xml.ts';
import type { Archive } from './zip.ts';

export interface Relationship {
  readonly id: string;
  /** The last word of its type, which is the same in both classes of the standard. */
  readonly type: string;
  /** Name of the part. */
  readonly target: string;
}

/** What a part, or the package ('' ), points to inside the package; what lies outside is never opened. */
export function relationships(archive: Archive, part: string): readonly Relationship[] {
  const folder = part.slice(0, part.lastIndexOf('/') + 1);
  const name = `${folder}_rels/${part.slice(folder.length)}.rels`;
  if (!archive.has(name)) return [];
  const found: Relationship[] = [];
  readXml(name, partText(name, archive.read(name)), {
    open: (element, attributes) => {
      const { Id, Type = '', Target = '', TargetMode } = attributes;
      if (element !== 'Relationship' || Id === undefined || TargetMode === 'External') return;
      const target = inPackage(Target.startsWith('/') ? Target.slice(1) : `${folder}${Target}`);
      if (target === undefined) throw new UnreadableFile(`the part ${name} points out of the package: ${Target}`);
      found.push({ id: Id, type: Type.slice(Type.lastIndexOf('/') + 1), target });
    },
  });
  return found;
}

/** A path without `.` and `..`; undefined where it leads out of the package. */
function inPackage(path: string): string | undefined {
  const steps: string[] = [];
  if (path.startsWith('/')) return undefined;
  for (const step of path.split('/')) {
    if (step === '..' && steps.pop() === undefined) return undefined;
    if (step !== '..' && step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}
