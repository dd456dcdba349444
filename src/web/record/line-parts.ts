/** The order of the work: what a person does first is asked first, and the paper form has the same order. */
export const LINE_PARTS: Readonly<
  Record<string, readonly { readonly title: string; readonly names: readonly string[] }[]>
> = {
  LineInserted: [
    {
      title: "Where",
      names: ["arm", "vein", "attempts", "veinDiameterMm", "armLengthCm", "veinEntryCm", "skinExitCm", "tunnelCm"],
    },
    { title: "Catheter", names: ["catheter", "french", "lumens", "lumenVolumeMl", "lotNumber", "expiresOn"] },
    { title: "Lengths", names: ["insideCm", "outsideCm", "trimmedCm"] },
    { title: "Tip and arm", names: ["tipMethod", "circumferenceCm", "circumferencePlaceCm"] },
    { title: "Who and where", names: ["ward", "setting", "inserter", "supervisor", "trainee", "problems"] },
  ],
  CareGiven: [
    { title: "Measure first", names: ["outsideCm", "secondMeasureCm", "secondMeasurer"] },
    {
      title: "Ask and look",
      names: ["symptoms", "site", "dressingState", "bloodReturn", "flushes", "circumferenceCm"],
    },
    { title: "Done", names: ["dressingChanged", "dressing", "connectorChanged", "flushed"] },
    { title: "And next", names: ["stillNeeded", "nextOn"] },
  ],
  TipRead: [
    { title: "Whose film", names: ["patientNumber", "arm", "armPosition", "method"] },
    { title: "Where the tip lies", names: ["tipPlace", "filmCm", "magnification", "unitOnFilmCm"] },
    { title: "At the skin now", names: ["outsideCm", "insideCm"] },
    { title: "Read by", names: ["readBy"] },
  ],
};
