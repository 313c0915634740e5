/** Phones and other devices: whether the shop is shared, how, with whom, and how another is let in. */
import type { Device, Me, SharingState } from "../../api/sharing.ts";
import { Asked } from "../parts/asked.tsx";
import { sharingText } from "../text/sharing.ts";
import { DeviceList } from "./device-list.tsx";
import { LetInPart } from "./let-in-part.tsx";
import { MovedPart } from "./moved-part.tsx";
import { SensorPart } from "./sensor-part.tsx";
import { ShareSwitch } from "./share-switch.tsx";
import { useDevices, useMe, useSharing } from "./sharing-queries.ts";

export function SharingPage() {
  const [asked, me, devices] = [useSharing(), useMe(), useDevices()];
  return (
    <Asked query={asked}>
      {(state) => (
        <Asked query={me}>
          {(who) => <Asked query={devices}>{(all) => <Sharing state={state} me={who} devices={all} />}</Asked>}
        </Asked>
      )}
    </Asked>
  );
}

function Sharing({ state, me, devices }: { state: SharingState; me: Me; devices: Device[] }) {
  return (
    <main className="sharing-page">
      <h1>{state.on ? sharingText.on(devices.length) : sharingText.off}</h1>
      <p className="lead">{sharingText.more}</p>
      {state.failure !== null && (
        <div role="alert" className="trouble">
          <p>{sharingText.failed(state.failure)}</p>
        </div>
      )}
      {state.movedFrom !== null && <MovedPart from={state.movedFrom} now={state.addresses[0] ?? ""} />}
      {state.on && <LetInPart state={state} devices={devices} />}
      {(state.on || devices.length > 0) && <DeviceList devices={devices} own={me.device.id} />}
      <ShareSwitch key={state.way} state={state} atThisMachine={me.device.id === "this machine"} />
      {state.on && <SensorPart address={state.addresses[0] ?? ""} />}
    </main>
  );
}
