"""Prices shop documents with quoin inside Python, by the C shared library and nothing else.

    python3 price.py libquoin.so shop.json…          one line of JSON for each document
    python3 price.py libquoin.so --list shop.json    its prices, to read
"""
import ctypes
import json
import pathlib
import sys
import time


def load(file):
    """Returns the call: it takes a document as bytes, and returns the reply as bytes."""
    library = ctypes.CDLL(file)
    library.quoin_version.restype = ctypes.c_uint
    library.quoin_price.restype = ctypes.c_void_p  # an address: text would be copied, and never freed
    library.quoin_price.argtypes = [ctypes.c_char_p, ctypes.c_size_t, ctypes.POINTER(ctypes.c_size_t)]
    library.quoin_free.restype = None
    library.quoin_free.argtypes = [ctypes.c_void_p]
    if (version := library.quoin_version()) != 1:
        raise RuntimeError(f"{file} gives replies of version {version}; this program reads version 1")

    def price(document):
        size = ctypes.c_size_t()
        reply = library.quoin_price(document, len(document), ctypes.byref(size))
        try:
            return ctypes.string_at(reply, size.value)
        finally:
            library.quoin_free(reply)

    return price


def listed(reply):
    reply = json.loads(reply)
    if "problems" in reply:
        return [
            f"{p.get('line', 0)}:{p.get('column', 0)}: {p.get('path', '')}: {p.get('found', '')}; wanted {p.get('wanted', '')}"
            for p in reply["problems"]
        ]
    answer = reply["answer"]
    if "conflict" in answer:
        return ["These rules contradict each other: " + ", ".join(answer["conflict"])]
    return [f"{p.get('name', p['id'])}: {p['price']} {answer['currency']}" for p in answer["products"]] + answer["cautions"]


def main(library, *files):
    price = load(library)
    if files[0] == "--list":
        print("\n".join(listed(price(pathlib.Path(files[1]).read_bytes()))))
    elif files[0] == "--time":  # how many nanoseconds so many calls take
        document, begin = pathlib.Path(files[2]).read_bytes(), time.perf_counter_ns()
        for _ in range(int(files[1])):
            price(document)
        print(time.perf_counter_ns() - begin)
    else:
        for file in files:
            sys.stdout.buffer.write(price(pathlib.Path(file).read_bytes()) + b"\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
