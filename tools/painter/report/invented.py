"""Invented people and devices: none of them is real."""

from __future__ import annotations

LASTS = ("Ashdown", "Brandt", "Corvey", "Dunmore", "Eklund", "Farrow", "Grenfell", "Hollis", "Inveree", "Jarl",
         "Kestrel", "Lindholm", "Marlow", "Norrby", "Oakeshott", "Pelham", "Quist", "Rowntree", "Selwyn", "Tarrant",
         "Van Doorn", "Weston-Hale", "O'Dale", "Müller", "Ibáñez", "Lefèvre")  # fmt: skip
FEMALE = ("Ada", "Carla", "Edda", "Greta", "Ines", "Kira", "Mina", "Noor", "Olga", "Petra", "Rosa", "Anna Maria")
MALE = ("Bruno", "Dov", "Femi", "Hugo", "Jonas", "Luca", "Otto", "Pavel", "Ravi", "Sven", "Tomas", "Jean-Paul")
# every audiometer is invented, as the clinic is
AUDIOMETERS = ("Lighthouse A3", "Breakwater 40", "Tidemark CA-2", "Gannet 12", "Foreland II", "Skerry 7", "Capstan AC5")
