/** A group of fields; what is asked now and then stands folded under it. */
export interface FormPart {
  readonly title: string;
  readonly names: readonly string[];
  readonly more?: { readonly title: string; readonly names: readonly string[] };
}

/** The order of the work: what a person does first is asked first, and the paper form has the same order. */
export const LINE_PARTS: Readonly<Record<string, readonly FormPart[]>> = {
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
    {
      title: "Measure first",
      names: ["outsideCm"],
      more: { title: "A second person measured", names: ["secondMeasureCm", "secondMeasurer"] },
    },
    {
      title: "Ask and look",
      names: ["symptoms", "bloodReturn", "flushes", "site", "dressingState"],
      more: { title: "The arm was measured", names: ["circumferenceCm"] },
    },
    {
      title: "Done",
      names: ["dressingChanged", "connectorChanged", "flushed"],
      more: { title: "Which dressing is on now", names: ["dressing"] },
    },
    { title: "And next", names: ["stillNeeded"], more: { title: "Next visit on a day", names: ["nextOn"] } },
  ],
  TipRead: [
    { title: "Whose film", names: ["patientNumber", "arm", "armPosition", "method"] },
    { title: "Where the tip lies", names: ["tipPlace", "filmCm", "magnification", "unitOnFilmCm"] },
    { title: "At the skin now", names: ["outsideCm", "insideCm"] },
    { title: "The reader", names: ["readBy"] },
  ],
};
