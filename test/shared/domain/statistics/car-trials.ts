/**
 * Weight (1000 lb) and range (miles per US gallon) of 32 cars: a published set that every statistics package has.
 * Source: Henderson & Velleman, "Building multiple regression models interactively", Biometrics 37 (1981) 391–411
 * (`mtcars` of R).
 */
export const WEIGHT: readonly number[] = [
  2.62, 2.875, 2.32, 3.215, 3.44, 3.46, 3.57, 3.19, 3.15, 3.44, 3.44, 4.07, 3.73, 3.78, 5.25, 5.424, 5.345,
  2.2, 1.615, 1.835, 2.465, 3.52, 3.435, 3.84, 3.845, 1.935, 2.14, 1.513, 3.17, 2.77, 3.57, 2.78,
];
export const RANGE: readonly number[] = [
  21, 21, 22.8, 21.4, 18.7, 18.1, 14.3, 24.4, 22.8, 19.2, 17.8, 16.4, 17.3, 15.2, 10.4, 10.4, 14.7, 32.4,
  30.4, 33.9, 21.5, 15.5, 15.2, 13.3, 19.2, 27.3, 26, 30.4, 15.8, 19.7, 15, 21.4,
];
