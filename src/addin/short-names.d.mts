export function withShortNames<T extends Readonly<Record<string, string>>>(scripts: T): { [N in keyof T]: string };
