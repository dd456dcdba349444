export { tipPlateFromFilm } from "./tip-plate-from-film.ts";
