/** What this device is let in as, and what it goes without because of how it reached the shop. */
import { useEffect, useState } from "react";
import { Link, useLocation } from "wouter";
import { standingText } from "../text/device-standing.ts";
import { useMe } from "./sharing-queries.ts";

export function DeviceStanding({ onGo }: { onGo: () => void }) {
  const me = useMe().data;
  const opensAlone = useOpensAlone();
  if (!me) return null;
  const { id, name, role } = me.device;
  const isNetwork = id !== "this machine";
  return (
    <>
      {isNetwork && <p>{standingText.as(name, role)}</p>}
      {isNetwork && !me.secure && <p>{standingText.plain}</p>}
      {isNetwork && me.secure && opensAlone === false && (
        <p>
          {standingText.untrusted} <a href="/trust">{standingText.toTrust}</a>
        </p>
      )}
      {role === "owner" && (
        <Link href="/sharing" className="button second" onClick={onGo}>
          {standingText.toSharing}
        </Link>
      )}
    </>
  );
}

/** A browser that does not trust the certificate shows the page all the same, but installs no worker for it. */
function useOpensAlone(): boolean | null {
  const [opens, setOpens] = useState<boolean | null>(null);
  useEffect(() => {
    if (!("serviceWorker" in navigator)) return setOpens(false);
    navigator.serviceWorker.getRegistration().then(
      (found) => setOpens(found !== undefined),
      () => setOpens(false),
    );
  }, []);
  return opens;
}

/** At the top of a screen: that nothing can be written down here, before anybody types it. */
export function DeviceLine() {
  const role = useMe().data?.device.role;
  const [address] = useLocation();
  const isOwnersPlace = /^\/(import|trials\/new|trials\/[^/]+\/plan)$/.test(address);
  const said =
    role === "viewer" ? standingText.looksOnly : role === "helper" && isOwnersPlace ? standingText.ownersPlace : null;
  return <div role="status">{said !== null && <p className="away">{said}</p>}</div>;
}

/** At the shop's own machine: that others can reach it. To every owner: that they no longer find it where it was. */
export function SharedMark() {
  const me = useMe().data;
  if (me?.moved && me.device.role === "owner") return <Link href="/sharing">{standingText.moved}</Link>;
  if (!me?.sharing || me.device.id !== "this machine") return null;
  return <Link href="/sharing">{standingText.shared}</Link>;
}
