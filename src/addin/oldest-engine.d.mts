export function unknownToOldest(script: string): readonly string[];
