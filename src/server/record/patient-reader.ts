import { indexPatients, type EventStore, type StoredEvent, type Subject } from "../../register/index.ts";

const PAGE = 500;

/** Finds what belongs to one patient; reads every event of the store once and goes on from there. */
export class PatientReader {
  readonly #store: EventStore;
  readonly #index = { patientOf: new Map<Subject, string>(), wardOf: new Map<string, string>() };
  #upTo = 0;
  #reading: Promise<void> = Promise.resolve();

  constructor(store: EventStore) {
    this.#store = store;
  }

  /** The ward a patient was last said to be on. */
  async wardOf(patient: string): Promise<string | undefined> {
    await this.#readOn();
    return this.#index.wardOf.get(patient);
  }

  /** The patient a subject belongs to, as far as the record says. */
  async patientOf(subject: Subject): Promise<string | undefined> {
    await this.#readOn();
    return this.#index.patientOf.get(subject);
  }

  /** Everything about a patient, in store order. */
  async eventsOf(patient: string): Promise<readonly StoredEvent[]> {
    await this.#readOn();
    const subjects = [...this.#index.patientOf].filter(([, one]) => one === patient).map(([subject]) => subject);
    const events = await Promise.all(subjects.map((subject) => this.#store.readSubject(subject)));
    return events.flat().sort((a, b) => a.position - b.position);
  }

  #readOn(): Promise<void> {
    const before = this.#reading.catch(() => undefined);
    this.#reading = before.then(async () => {
      for (;;) {
        const events = await this.#store.readAfter(this.#upTo, PAGE);
        indexPatients(this.#index, events);
        this.#upTo = events.at(-1)?.position ?? this.#upTo;
        if (events.length < PAGE) return;
      }
    });
    return this.#reading;
  }
}
