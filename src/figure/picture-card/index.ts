export { armPicture, bloodInTube, bothArmsPicture, shivering, telephone, thickArm, wetDressing } from "./pictures.ts";
