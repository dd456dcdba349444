import { useState, type ReactNode } from "react";

/** Initials and date: a person's word that the lines may be taken. */
export function AgreePart({
  today,
  agree,
}: {
  readonly today: string;
  readonly agree: (by: string) => void;
}): ReactNode {
  const [initials, setInitials] = useState("");
  const [date, setDate] = useState(today);
  const [asked, setAsked] = useState(false);
  const complete = initials.trim() !== "" && /^\d{4}-\d{2}-\d{2}$/.test(date);
  return (
    <form
      className="agree"
      onSubmit={(event) => {
        event.preventDefault();
        setAsked(true);
        if (complete) agree(`${initials.trim()}, ${date}`);
      }}
    >
      <h2>Agree</h2>
      <p>Nothing was taken yet. Your initials take the lines as shown above.</p>
      <div className="column-asks">
        <label className="ask">
          Initials
          <input
            data-import="initials"
            autoComplete="off"
            maxLength={12}
            value={initials}
            aria-invalid={asked && initials.trim() === ""}
            onChange={(event) => setInitials(event.target.value)}
          />
        </label>
        <label className="ask">
          Date
          <input type="date" data-import="date" value={date} onChange={(event) => setDate(event.target.value)} />
        </label>
        <button type="submit" data-import="agree">
          Take the lines
        </button>
      </div>
      {asked && !complete ? (
        <p className="fault" role="alert">
          Who agrees, and when? Write initials and date.
        </p>
      ) : null}
    </form>
  );
}
