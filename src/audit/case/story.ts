/**
 * One line's course without identity: days since the placing instead of dates, ages grouped, no name, number, ward or
 * free word. Only what is listed by name in the readers gets in, so that a new field stays out until somebody adds it.
 */
export interface CaseStory {
  /** What the line and the person were, as groups. */
  readonly opening: readonly CaseFact[];
  readonly steps: readonly CaseStep[];
  /** People who share age band, diagnosis and month of placing, this one among them. */
  readonly peopleAlike: number;
  /** So few share them that somebody may know whose line it was. */
  readonly rare: boolean;
}

/** Something that happened, by its day: 0 is the day of the placing, before it is below 0. */
export interface CaseStep {
  readonly day: number;
  readonly what: string;
  readonly facts: readonly CaseFact[];
}

/** A measured number, a choice out of a list, or yes or no; never a word somebody typed. */
export interface CaseFact {
  readonly name: string;
  readonly value: string | number | boolean | readonly string[];
  readonly unit: string;
}
