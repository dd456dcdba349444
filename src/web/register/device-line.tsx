import "./device.css";
import type { ReactNode } from "react";
import { Link } from "wouter";
import { civilDateOf } from "../../core/calendar/index.ts";
import { deviceWords, sayLastContact, sayServerRefusal, sayToSettle, sayWaiting } from "../../language/index.ts";
import { settleCount } from "./open-disputes.ts";
import type { Register } from "./register.ts";

/** One quiet line, always in sight: what waits, the last contact, and the one thing to do about it. */
export function DeviceLine({ register }: { readonly register: Register }): ReactNode {
  const { contact, unsent, lastContact, lock } = register;
  const today = civilDateOf(register.now());
  const settle = register.locked ? 0 : settleCount(register);
  const alone = contact.kind === "alone";
  return (
    <aside
      className="device-line"
      aria-label={deviceWords.label}
      data-contact={contact.kind}
      data-rehearsing={register.rehearsing || undefined}
    >
      <p aria-live="polite">
        <span data-device="unsent">{sayWaiting(unsent, contact.kind)}</span>{" "}
        {alone ? null : <span data-device="contact">{sayLastContact(lastContact, today)}</span>}{" "}
        {contact.kind === "server is older" ? <b>{contact.told}</b> : null}
        {contact.kind === "sign in again" ? <b>{deviceWords.asksSignIn} </b> : null}
        {contact.kind === "no copy" ? <b>{sayServerRefusal(contact.code)}</b> : null}
        {contact.kind === "secret first" ? <b>{deviceWords.secretFirst}</b> : null}
        {lock.state === "shut" && unsent > 0 ? <b>{deviceWords.shutWaits}</b> : null}
        {lock.state === "clear" ? <b>{register.rehearsing ? deviceWords.practice : deviceWords.inTheClear}</b> : null}
      </p>
      <p className="device-presses">
        {settle > 0 ? (
          <Link href="/settle" data-device="settle">
            {sayToSettle(settle)}
          </Link>
        ) : null}{" "}
        {contact.kind === "sign in again" && !register.locked ? (
          <Link href="/sign-in">{deviceWords.signIn}</Link>
        ) : null}{" "}
        {contact.kind === "out of touch" ? (
          <button type="button" className="plain-press" onClick={register.syncNow}>
            {deviceWords.tryNow}
          </button>
        ) : null}{" "}
        {register.account !== "" && !register.locked ? (
          <>
            <Link href="/people">{register.account}</Link>{" "}
          </>
        ) : null}
        {register.account !== "" && lock.state === "clear" ? (
          <>
            <button
              type="button"
              className="plain-press"
              data-device="leave"
              onClick={() => void register.leaveServer()}
            >
              {deviceWords.signOut}
            </button>{" "}
          </>
        ) : null}
        {lock.state === "clear" ? <Link href="/secret">{deviceWords.setSecret}</Link> : null}{" "}
        {lock.state === "open" ? (
          <>
            <button type="button" className="plain-press" onClick={lock.hide} data-device="lock">
              {deviceWords.lockNow}
            </button>{" "}
            <button type="button" className="plain-press" onClick={lock.signOut} data-device="sign-out">
              {deviceWords.signOut}
            </button>
          </>
        ) : null}
      </p>
    </aside>
  );
}
