/** The little of js-aruco2 that is used as the peer of our own marker search; the package brings no types. */
declare module "js-aruco2" {
  export const AR: {
    Detector: new (options: {
      dictionaryName: string;
    }) => {
      detectImage(
        width: number,
        height: number,
        rgba: Uint8ClampedArray,
      ): { id: number; corners: { x: number; y: number }[] }[];
    };
  };
}
declare module "js-aruco2/src/dictionaries/aruco_mip_36h12.js";
