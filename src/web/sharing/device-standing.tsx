/** What this device is let in as, and what it goes without because of how it reached the shop. */
import { useEffect, useState } from "react";
import { Link } from "wouter";
import { pairText, sharingText, standingText } from "../text/sharing.ts";
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
          {sharingText.toSharing}
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

/** At the top of every screen: that nothing can be written down here; at the shop's own machine, that it is shared. */
export function DeviceLine() {
  const me = useMe().data;
  if (me?.device.role === "viewer") return <p className="away">{pairText.looksOnly}</p>;
  return null;
}

export function SharedMark() {
  const me = useMe().data;
  if (!me?.sharing || me.device.id !== "this machine") return null;
  return <Link href="/sharing">{sharingText.shared}</Link>;
}
