/** A search field with the number of hits, read out as it changes. */
export function SearchBox({
  id,
  label,
  words,
  hits,
  onWords,
}: {
  readonly id: string;
  readonly label: string;
  readonly words: string;
  readonly hits: number;
  readonly onWords: (words: string) => void;
}) {
  return (
    <div class="rs-search">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="search"
        value={words}
        autocomplete="off"
        spellcheck={false}
        onInput={(e) => onWords(e.currentTarget.value)}
      />
      <span role="status">{words.trim() === '' ? '' : `${hits} found`}</span>
    </div>
  );
}

/** Whether a text holds each of the words. */
export function holdsWords(text: string, words: string): boolean {
  const lower = text.toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => lower.includes(word));
}
