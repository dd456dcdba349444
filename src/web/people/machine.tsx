import { useEffect, useState, type ReactNode } from "react";
import { isLate, peopleWords, sayBackups } from "../../language/index.ts";
import { peoplePort, type BackupStanding, type MachineSaid } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

/** A backup and a check of every chain, each by one press, and what the server said of it. */
export function Machine(): ReactNode {
  const [said, setSaid] = useState<MachineSaid>();
  const { ask, told, busy } = useAsking();
  const [standing, setStanding] = useState<BackupStanding>();
  const { ask: askStanding, told: standingTold } = useAsking();
  useEffect(() => askStanding(peoplePort.backups(), setStanding), [askStanding]);
  return (
    <section>
      <h2>{peopleWords.machine}</h2>
      {standing ? (
        <p
          className={isLate(standing) ? "fault" : undefined}
          role={isLate(standing) ? "alert" : undefined}
          data-people="daily"
        >
          {sayBackups(standing)}
        </p>
      ) : null}
      <Told words={standingTold} />
      <p className="presses">
        <button type="button" disabled={busy} data-people="backup" onClick={() => ask(peoplePort.backup(), setSaid)}>
          {peopleWords.backup}
        </button>{" "}
        <button type="button" disabled={busy} data-people="verify" onClick={() => ask(peoplePort.verify(), setSaid)}>
          {peopleWords.verify}
        </button>
      </p>
      <output data-people="machine" data-good={said?.good}>
        {busy ? <p>{peopleWords.working}</p> : said?.lines.map((line) => <p key={line}>{line}</p>)}
      </output>
      {said && !said.good ? <Told words={peopleWords.notGood} /> : null}
      <Told words={told} />
    </section>
  );
}
