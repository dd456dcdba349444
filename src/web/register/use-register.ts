import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { StoredEvent } from "../../register/index.ts";
import { Device, newId } from "./device.ts";
import type { Register } from "./register.ts";
import { serverHere, type ServerPort } from "./server-port.ts";
import { signingRoles } from "./signing-roles.ts";
import { USUAL_SETTINGS } from "./vault/device-notes.ts";

/**
 * The one device of this tab. It outlives the record's pages: a look at a plan must not shut the lock, drop what could
 * not be kept yet, or stop the sending of what waits.
 */
let here: Device | undefined;

/**
 * The record of this device, in every tab. `start` holds the practice patients: they are shown, never kept and never
 * sent, and step back when a server's record holds them. Read once; a later change of `start` or `server` is not seen.
 */
export function useRegister(
  policyVersion: string,
  start: readonly StoredEvent[] = [],
  server: ServerPort | undefined = serverHere(),
): Register {
  const [device] = useState(() => here ?? new Device(server, start));
  useEffect(() => {
    if (here === device) return;
    here = device;
    device.start();
  }, [device]);
  const seen = useSyncExternalStore(device.subscribe, device.snapshot);
  return useMemo((): Register => {
    const { record, lock, notes } = seen;
    return {
      ready: seen.ready,
      rehearsing: seen.rehearsing,
      locked: seen.locked,
      histories: seen.histories,
      unsent: seen.unsent,
      contact: seen.contact,
      lastContact: seen.lastContact,
      trouble: seen.trouble,
      device: seen.device,
      write: (writings) => device.write(writings, policyVersion),
      newId,
      now: () => device.now(),
      lock: {
        state: lock,
        people: seen.people,
        settings: notes?.settings ?? USUAL_SETTINGS,
        setUp: (person, secret) => device.setUp(person, secret),
        open: (person, secret) => device.open(person, secret),
        recover: (typed, person, secret) => device.recover(typed, person, secret),
        giveSecret: (own, person, secret) => device.giveSecret(own, person, secret),
        hide: device.hide,
        signOut: () => void device.leaveServer().finally(device.signOut),
        set: (settings) => device.setSettings(settings),
      },
      toSettle: {
        aside: record.aside,
        offerAgain: (id) => device.keep([{ kind: "offered again", id }]),
        returned: record.returned,
        returnedSeen: () => device.keep([{ kind: "returned seen" }]),
        unseenDecisions: seen.unseen,
        unkept: seen.unkept,
        keepAgain: () => device.keepAgain(),
        takeEntries: (events) => device.keep([{ kind: "written", events }]),
      },
      nameDevice: (name) => device.nameDevice(name),
      signIn: (who) => device.signIn(who),
      choosePassword: (now, next) => device.choosePassword(now, next),
      account: notes?.account ?? "",
      roles: signingRoles(notes?.account ? notes.roles : undefined),
      leaveServer: () => device.leaveServer(),
      syncNow: device.syncNow,
    };
  }, [device, seen, policyVersion]);
}
