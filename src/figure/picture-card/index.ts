export { armPicture, bloodInTube, shivering, telephone, thickArm, wetDressing } from "./pictures.ts";
