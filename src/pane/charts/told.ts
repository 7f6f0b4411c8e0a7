/** What every plot says of itself. */
export interface Told {
  /** Starts the ids of its elements; one of its kind on a page. */
  readonly name: string;
  readonly title: string;
  /** What is to be seen in it. */
  readonly caption: string;
  /** The cell that gives a point, to put in a sheet. */
  readonly formula?: string;
}

/** A round value of an axis, and where it stands. */
export interface Tick {
  readonly at: number;
  readonly text: string;
}
