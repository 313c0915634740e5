/** Steps by which a device comes to trust the shop's authority. Names of settings as they usually are. */
export const trustText = {
  title: "Tell this device whom to trust",
  lead: "The shop has made a certificate of its own. Once this device knows it, everything between the two is encrypted, and the page opens without network.",
  get: "Get the certificate",
  next: "Then go on to let the device in",
  compare:
    "One of the steps compares the certificate's fingerprint (SHA-256): what the device shows must be, pair by pair, what stands on the shop's own machine under “Phones and other devices”, “Show a code”. Another one means that somebody stands between the two: undo it at once.",
  practice: "Common practice; names of settings differ from phone to phone and from year to year.",
  ways: [
    {
      name: "Android",
      steps: [
        "Press “Get the certificate” and keep the file.",
        "Open the phone's settings and search for “CA certificate” (usually under Security, More, Encryption and credentials, Install a certificate).",
        "Choose “CA certificate”, then “Install anyway”, and pick the file coatwright-authority.crt. The phone asks for its screen lock.",
        "Search the settings for “Trusted credentials”, tab “User”, and press this shop's entry: compare its SHA-256 fingerprint.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "Settings, search for “Trusted credentials”, the tab “User”, the entry of this shop, “Remove”.",
    },
    {
      name: "iPhone and iPad",
      steps: [
        "Open this page in the browser that came with the phone. Press “Get the certificate” and allow the download of a profile.",
        "Open Settings: “Profile downloaded” stands near the top. Before you press “Install”: “More Details”, press the certificate and compare its SHA-256 fingerprint. The phone asks for its code.",
        "Settings, General, About, at the very bottom “Certificate Trust Settings”: switch this shop's entry on.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "Settings, General, “VPN & Device Management”, the entry of this shop, “Remove Profile”.",
    },
    {
      name: "A computer",
      steps: [
        "Press “Get the certificate” and keep the file.",
        "Open the browser's settings, search for “certificates”, and import the file among the authorities, for web sites. Press its entry there and compare its SHA-256 fingerprint.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "The same place: the entry of this shop among the authorities, “Delete”.",
    },
  ],
  entry: "Its name begins with “Coatwright shop on”.",
  undo: "To undo it",
  meaningTitle: "What it means",
  meaning: [
    "The device then believes whoever shows a certificate from this shop's authority. The authority is limited to addresses of local networks and to names that end in “.local”: it cannot vouch for a bank or for mail. Not every older phone obeys that limit.",
    "The authority's key lies in the shop's folder on the machine that serves it, readable by its user. Who copies that key could pretend to be this shop to this device. Backups leave it behind.",
    "A phone may say from now on that the network can be watched. It says so of every authority that it did not come with.",
  ],
};
