"""The findings of `service.tables.findings.common_line` in Spanish."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "{total_capacity:ton|kW}{where} alone would allow {row_size} in; a length of {pipe_size} in runs into it, and a drain line is never reduced.": "Solo por {total_capacity:ton|kW}{where} bastaría tubo de {row_size} in; a ese punto llega un trecho de {pipe_size} in, y una línea de drenaje nunca se reduce.",
    "Install {pipe_size} in from there to the place of disposal.": "Instale tubo de {pipe_size} in desde ahí hasta el lugar de descarga.",
    "The pipe of {length} is {pipe_size} in; {total_capacity:ton|kW} drain through it, for which the code's table and the pan outlets above ask for {needed} in.": "El tubo en {length} es de {pipe_size} in; por él drenan {total_capacity:ton|kW}, y para eso la tabla del código y las salidas de las bandejas de arriba piden {needed} in.",
    "Replace it with {needed} in, or lead some of the units another way.": "Cámbielo por tubo de {needed} in, o lleve algunas de las unidades por otro camino.",
    "The pipe of {length} is {pipe_size} in, and {upstream} in runs into it: a reduction on the way, where slime and debris catch.": "El tubo en {length} es de {pipe_size} in, y a él llega tubo de {upstream} in: una reducción en el camino, donde se atoran la lama y la basura.",
    "Run {upstream} in from there to the place of disposal.": "Continúe con tubo de {upstream} in desde ahí hasta el lugar de descarga.",
    "No unit drains through {length}.": "Ninguna unidad drena por {length}.",
    "Leave it out, or say which units join it.": "Omítalo, o indique qué unidades se conectan a él.",
    'The water of {length} is said to join "{name}", and no length after it in the list is called that. It was taken to run into {taken}.': 'Se indicó que el agua en {length} se une a "{name}", y ningún trecho posterior de la lista se llama así. Se tomó que descarga en {taken}.',
    "List the lengths the way the water runs, the last one to the place of disposal, and correct the name.": "Liste los trechos en el orden en que corre el agua, el último hasta el lugar de descarga, y corrija el nombre.",
    '{count} lengths are called "{name}". A unit was taken to join the first of them, a length the next one after it.': '{count} trechos se llaman "{name}". Se tomó que una unidad se conecta al primero de ellos, y un trecho al siguiente después de él.',
    "Give every length a name of its own.": "Dé a cada trecho un nombre propio.",
    'This unit is said to join "{name}", and no length is called that. It was taken to join the line at its upstream end.': 'Se indicó que esta unidad se conecta a "{name}", y ningún trecho se llama así. Se tomó que se conecta a la línea en su extremo de aguas arriba.',
    "Correct the name, or list that length.": "Corrija el nombre, o agregue ese trecho a la lista.",
}
