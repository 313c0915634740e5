/** Who is let in, as what, when last seen; and the way out. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import type { Device } from "../../api/sharing.ts";
import { Trouble } from "../parts/trouble.tsx";
import { tell } from "../shop/ask.ts";
import { roleWords } from "../text/device-standing.ts";
import { instantText } from "../text/parts.ts";
import { sharingText } from "../text/sharing.ts";

export function DeviceList({ devices, own }: { devices: readonly Device[]; own: string }) {
  return (
    <section>
      <h2>{sharingText.devicesTitle}</h2>
      {devices.length === 0 && <p className="lead">{sharingText.noDevices}</p>}
      <ul className="bare">
        {devices.map((device) => (
          <DeviceRow key={device.id} device={device} isThis={device.id === own} />
        ))}
      </ul>
    </section>
  );
}

function DeviceRow({ device, isThis }: { device: Device; isThis: boolean }) {
  const [asking, setAsking] = useState(false);
  const client = useQueryClient();
  const sendAway = useMutation({
    mutationFn: () => tell(`/api/devices/${device.id}`, { method: "DELETE" }),
    onSettled: () => client.invalidateQueries({ queryKey: ["devices"] }),
  });
  const { name, role, site, way, pairedAt, lastSeenAt } = device;
  return (
    <li className="device-row">
      <div>
        <b>{name}</b> {isThis && <span className="unit">({sharingText.thisDevice})</span>}
        <p className="when">
          {[
            site === null ? roleWords[role] : sharingText.ofSite(site),
            ...(lastSeenAt === null ? [] : [sharingText.seen(instantText(lastSeenAt))]),
            sharingText.paired(instantText(pairedAt), way),
          ].join(", ")}
        </p>
      </div>
      {asking ? (
        <div>
          <p>{sharingText.sendAwayAsk(name)}</p>
          <Trouble error={sendAway.error} />
          <div className="actions">
            <button type="button" disabled={sendAway.isPending} onClick={() => sendAway.mutate()}>
              {sharingText.sendAwayGo}
            </button>
            <button type="button" className="quiet" onClick={() => setAsking(false)}>
              {sharingText.keep}
            </button>
          </div>
        </div>
      ) : (
        <button
          type="button"
          className="second"
          aria-label={`${sharingText.sendAway}: ${name}`}
          onClick={() => setAsking(true)}
        >
          {sharingText.sendAway}
        </button>
      )}
    </li>
  );
}
