//! How a wall gives heat to the air.
#![expect(clippy::float_arithmetic, reason = "correlations good to 15-20 %")]

use super::kinetics::KELVIN;

/// Stefan and Boltzmann's constant, W/(m² K⁴). Source: CODATA 2018, exact to the digits given.
const STEFAN: f64 = 5.670_374_419e-8;
/// Emissivity of wood, board, textile and soap. Source: from memory, 0.9 to 0.95.
const EMISSIVITY: f64 = 0.95;
/// Standard gravity, m/s². Source: CGPM 1901.
const GRAVITY: f64 = 9.806_65;

/// Still air at the mean of two temperatures.
///
/// # Source
/// Conductivity and viscosity: US Standard Atmosphere 1976. Density at 101.325 kPa with the gas constant 287.052 87
/// J/(kg K) of ISO 2533. Heat capacity 1005 J/(kg K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Thermal conductivity, W/(m K).
    pub conductivity: f64,
    /// Prandtl number.
    pub prandtl: f64,
    /// Grashof number of a length of one metre at the difference between the two temperatures.
    grashof: f64,
}

impl Air {
    /// Air between a surface and the room, both in °C.
    #[must_use]
    pub fn between(surface: f64, room: f64) -> Self {
        let kelvin = (surface + room) / 2.0 + KELVIN;
        let viscosity = 1.458e-6 * kelvin * kelvin.sqrt() / (kelvin + 110.4);
        let conductivity =
            2.64638e-3 * kelvin * kelvin.sqrt() / (kelvin + 245.4 * libm::pow(10.0, -12.0 / kelvin));
        let density = 101_325.0 / (287.052_87 * kelvin);
        let kinematic = viscosity / density;
        Self {
            conductivity,
            prandtl: 1005.0 * viscosity / conductivity,
            grashof: GRAVITY / kelvin * (surface - room).abs() / (kinematic * kinematic),
        }
    }

    /// Grashof number of a length in metres.
    #[must_use]
    pub fn grashof(&self, length: f64) -> f64 {
        self.grashof * length * length * length
    }

    /// Film coefficient of an upright wall of a height in metres, W/(m² K).
    ///
    /// # Source
    /// S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323.
    #[must_use]
    pub fn side(&self, height: f64) -> f64 {
        let rayleigh = self.grashof(height) * self.prandtl;
        let below = libm::pow(1.0 + libm::pow(0.492 / self.prandtl, 9.0 / 16.0), 8.0 / 27.0);
        let root = 0.825 + 0.387 * libm::pow(rayleigh, 1.0 / 6.0) / below;
        root * root * self.conductivity / height
    }

    /// Film coefficient of the upper face of something warm, W/(m² K); `length` is its area over its perimeter, in metres.
    ///
    /// # Source
    /// W. H. McAdams, Heat Transmission, 3rd ed. 1954: Nu = 0.54 Ra^(1/4) to Ra = 1e7, 0.15 Ra^(1/3) above.
    #[must_use]
    pub fn top(&self, length: f64) -> f64 {
        let rayleigh = self.grashof(length) * self.prandtl;
        let nusselt =
            if rayleigh > 1e7 { 0.15 * libm::cbrt(rayleigh) } else { 0.54 * libm::pow(rayleigh, 0.25) };
        nusselt * self.conductivity / length
    }

    /// Film coefficient of the lower face of something warm, W/(m² K), as [`top`](Self::top): Nu = 0.27 Ra^(1/4).
    #[must_use]
    pub fn bottom(&self, length: f64) -> f64 {
        let rayleigh = self.grashof(length) * self.prandtl;
        0.27 * libm::pow(rayleigh, 0.25) * self.conductivity / length
    }
}

/// What radiation adds to a film, W/(m² K), between a surface and the room in °C, both at emissivity 0.95 (from memory).
#[must_use]
pub fn radiation(surface: f64, room: f64) -> f64 {
    let [surface, room] = [surface + KELVIN, room + KELVIN];
    EMISSIVITY * STEFAN * (surface * surface + room * room) * (surface + room)
}

/// Conductance of a film in series with sheets, W/(m² K): 1 / (1/film + sum of thickness / conductivity).
#[must_use]
pub fn conductance(film: f64, resistances: &[f64]) -> f64 {
    1.0 / (1.0 / film + resistances.iter().sum::<f64>())
}
