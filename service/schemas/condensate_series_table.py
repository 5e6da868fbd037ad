"""``condensate-rate/series`` as CSV."""

from service.schemas.condensate_series import DAY_DEW_POINT, DAY_DRY_BULB
from service.schemas.table_text import Table

SERIES_TABLE = Table(
    description="UTF-8 CSV (RFC 4180) in three parts. First the settings, a line each: `name,value` or, for a "
    "quantity, `name,number,unit`. The names are those of the JSON members, those of a part after a dot, as "
    "`leaving_air.dry_bulb,55,degF`. Then an empty line. Then the table: a header line and a line for each row. "
    "Columns are `dry_bulb`, one of `wet_bulb`, `relative_humidity_percent` and `dew_point`, and, where wanted, "
    "`run_fraction`; a temperature's unit follows its name after a blank, as `dry_bulb degF`. A column `time` of "
    "local times, as `2026-07-14T15:00`, evenly spaced, may stand for the settings `start` and `step`. Cells left "
    "over at the end of a line may be empty, as spreadsheets leave them.",
    columns={
        "dry_bulb": "/entering_air/dry_bulb",
        "wet_bulb": "/entering_air/wet_bulb",
        "relative_humidity_percent": "/entering_air/relative_humidity_percent",
        "dew_point": "/entering_air/dew_point",
        "run_fraction": "/run_fraction",
    },
    examples={
        "humid-day": {
            "summary": "The humid day again, as a table with times",
            "value": "air_flow,2000,cfm\nleaving_air.dry_bulb,55,degF\nleaving_air.relative_humidity_percent,95\n"
            "elevation,30,ft\ndrain_capacity,10,gal/h\n\ntime,dry_bulb degF,dew_point degF\n"
            + "".join(
                f"2026-07-14T{hour:02}:00,{dry_bulb},{dew_point}\n"
                for hour, (dry_bulb, dew_point) in enumerate(
                    zip(DAY_DRY_BULB.split(), DAY_DEW_POINT.split(), strict=True)
                )
            ),
        },
        "home-unit-si": {
            "summary": "A coil that cycles, numbered from a start without times",
            "value": "start,2026-08-01T12:00\nair_flow,400,L/s\ncoil.total_capacity,7,kW\ncoil.bypass_factor,0.12\n"
            "station_pressure,100.8,kPa\nhourly,true\n\ndry_bulb degC,relative_humidity_percent,run_fraction\n"
            "29,60,0.8\n30,57,0.9\n30.5,55,1\n30,57,0.9\n",
        },
    },
)
